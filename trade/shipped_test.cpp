#include "trade/shipped.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace heatwork::trade {
namespace {

std::vector<std::string> paths_in_the_tree() {
  const std::filesystem::path root = std::filesystem::path(HEATWORK_SOURCE_DIR) / "data";
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(root))
    if (entry.path().extension() == ".toml") paths.push_back(entry.path().lexically_relative(root).generic_string());
  std::sort(paths.begin(), paths.end());
  return paths;
}

TEST(Shipped, CarriesEveryFileOfTheTreeInOrderOfPath) {
  std::vector<std::string> carried;
  for (const ShippedFile& file : shipped_files()) carried.emplace_back(file.path);
  ASSERT_FALSE(carried.empty());
  EXPECT_EQ(carried, paths_in_the_tree());
}

TEST(Shipped, CarriesEveryFileByteForByte) {
  for (const ShippedFile& file : shipped_files()) {
    std::ifstream stream(std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / file.path, std::ios::binary);
    std::stringstream text;
    text << stream.rdbuf();
    EXPECT_EQ(text.str(), file.text) << file.path;
    EXPECT_EQ(shipped_text(file.path), file.text) << file.path;
  }
}

TEST(Shipped, HasNoTextForAPathThatDoesNotShip) {
  EXPECT_TRUE(shipped_text("materials/no-such-material.toml").empty());
  EXPECT_TRUE(shipped_text("").empty());
}

}  // namespace
}  // namespace heatwork::trade
