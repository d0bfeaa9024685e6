#include "tests/store/test_store.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>

namespace heatwork::store_proof {

bool long_run() {
  const char* asked = std::getenv("HEATWORK_LONG");
  return asked && std::string(asked) == "1";
}

void figure_of(int number, const std::string& name, double value, const std::string& unit) {
  const std::string tail = number > 1 ? "_" + std::to_string(number) : "";
  const std::string digits = value == static_cast<double>(static_cast<std::int64_t>(value)) ? fmt::format("{:.0f}", value)
                             : value < 1                                                    ? fmt::format("{:.3f}", value)
                                                                                            : fmt::format("{:.1f}", value);
  std::cout << name << ": " << digits << " " << unit << std::endl;
  testing::Test::RecordProperty("figure" + tail, name);
  testing::Test::RecordProperty("figure_value" + tail, digits);
  testing::Test::RecordProperty("figure_unit" + tail, unit);
}

void OnBothEngines::SetUp() {
  static int number = 0;
  const std::string name = "heatwork_store_" + std::to_string(::getpid()) + "_" + std::to_string(++number);
  // A great store goes where the build has room.
  const char* build = std::getenv("HEATWORK_BUILD");
  folder_ = (build && *build ? std::filesystem::path(build) : std::filesystem::temp_directory_path()) / name;
  std::filesystem::create_directories(folder_);
  if (sqlite()) {
    address_ = {records::Engine::sqlite, (folder_ / "lab.sqlite").string()};
    return;
  }
  const char* server = std::getenv("HEATWORK_TEST_POSTGRES");
  if (!server || !*server) GTEST_SKIP() << "HEATWORK_TEST_POSTGRES names no server where databases may be made.";
  server_ = server;
  database_ = name;
  on({records::Engine::postgresql, server_}, "create database " + database_);
  const auto path = server_.find('/', server_.find("://") + 3);
  const auto question = server_.find('?');
  address_ = {records::Engine::postgresql, server_.substr(0, std::min(path, question)) + "/" + database_ +
                                               (question == std::string::npos ? "" : server_.substr(question))};
}

void OnBothEngines::TearDown() {
  if (!database_.empty()) on({records::Engine::postgresql, server_}, "drop database if exists " + database_ + " with (force)");
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

void OnBothEngines::on(const records::Address& address, const std::string& statement) {
  records::Store::Inside hand;
  hand.address = address;
  hand.run(statement);
}

}  // namespace heatwork::store_proof
