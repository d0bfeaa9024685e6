#include "trade/writer.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <vector>

#include "trade/examples_for_tests.h"
#include "trade/library.h"
#include "trade/mistake.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> own_files() {
  std::vector<fs::path> files;
  for (const auto* folder : {"materials", "liquids", "alloys", "demo"})
    for (const auto& entry : fs::directory_iterator(fs::path(HEATWORK_SOURCE_DIR) / "data" / folder))
      if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

template <class T>
std::string rewritten(const std::shared_ptr<const Source>& source) {
  return write_noun(read_noun<T>(source));
}

std::string rewritten_any(const std::shared_ptr<const Source>& source) {
  return with_type_of(heading_of(source)->noun, [&]<class T>(std::type_identity<T>) { return rewritten<T>(source); });
}

TEST(Writer, WhatIsWrittenReadsBackAndIsWrittenTheSame) {
  std::set<Noun> seen;
  for (const auto& path : own_files()) {
    const auto source = source_from_file(path);
    seen.insert(heading_of(source)->noun);
    const std::string once = rewritten_any(source);
    const std::string twice = rewritten_any(source_of(path.filename().string(), once));
    EXPECT_EQ(once, twice) << path;
  }
  EXPECT_GE(seen.size(), 12U) << "a kind of noun that ships has no file among our own";
}

TEST(Writer, TheExampleOfEveryPageIsWrittenAsAFixedPoint) {
  for (const auto kind : noun_words) {
    const std::string page = path_of_page(*noun_of(kind));
    const std::string once = rewritten_any(source_of(page, example_of_page(*noun_of(kind))));
    EXPECT_EQ(rewritten_any(source_of(page, once)), once) << page;
  }
}

TEST(Writer, WritesCanonicalUnitsAndDefaults) {
  const auto program =
      read_noun<Program>(source_of("odd.toml",
                                   "format = 1\n[program]\nname = \"odd\"\nstandby = \"734 °F\"\nentry = \"431 °C\"\ndrying_time = \"400 "
                                   "s\"\nclosing_time = \"2:25\"\n[[program.heating]]\nto = \"817 °C\"\nrate = \"99 °F/min\"\n"));
  EXPECT_EQ(write_noun(program), R"(format = 1

[program]
name = "odd"
standby = "390 °C"
entry = "431 °C"
drying_time = "6 min 40 s"
drying_opening = "100 %"
closing_time = "2 min 25 s"
preheat_hold = "0 s"

[[program.heating]]
to = "817 °C"
rate = "55 K/min"
hold = "0 s"
)");
}

TEST(Writer, QuotesWhatTomlWouldRead) {
  Tray tray = read_noun<Tray>(source_of("t.toml",
                                        "format = 1\n[tray]\nname = \"t\"\nlabel = \"a \\\"b\\\" \\\\ c\\n\"\nmaterial = \"m\"\ndiameter = "
                                        "\"61 mm\"\nthickness = \"7 mm\"\n"));
  EXPECT_EQ(tray.label, "a \"b\" \\ c\n");
  EXPECT_EQ(read_noun<Tray>(source_of("t.toml", write_noun(tray))).label, tray.label);
}

TEST(Hash, IsThatOfThePublishedFunction) {
  // BLAKE2b-256 of the empty text and of "abc", as RFC 7693's reference code gives them for an output of 32 bytes.
  EXPECT_EQ(blake2b_256(""), "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
  EXPECT_EQ(blake2b_256("abc"), "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
}

class Canonical : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        fs::temp_directory_path() / ("heatwork-canonical-" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::copy(fs::path(HEATWORK_SOURCE_DIR) / "data/demo", folder_);
    for (const auto& entry : fs::directory_iterator(folder_)) fs::permissions(entry.path(), fs::perms::owner_write, fs::perm_options::add);
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] std::string hash() const { return blake2b_256(canonical_text(load_firing(folder_ / "firing.toml", nullptr))); }

  /// The first line that begins with the key gets another value.
  void set(const std::string& file, const std::string& key, const std::string& value) const {
    std::stringstream text;
    text << std::ifstream(folder_ / file).rdbuf();
    std::string changed = text.str();
    const auto start = changed.find("\n" + key + " = ");
    ASSERT_NE(start, std::string::npos) << file << " holds no " << key;
    const auto end = changed.find('\n', start + 1);
    changed.replace(start, end - start, "\n" + key + " = " + value);
    std::ofstream(folder_ / file) << changed;
  }

  fs::path folder_;
};

TEST_F(Canonical, LabelsNotesNamesAndSpellingsChangeNothing) {
  const std::string program = "program-dentine-on-zirconia.toml";
  set(program, "to", "\"817 °C\"");
  set(program, "drying_time", "\"6 min 40 s\"");
  const std::string before = hash();
  set(program, "to", "\"1502.6 °F\"");
  set(program, "drying_time", "\"400 s\"");
  set("firing.toml", "label", "\"ours\"");
  set("furnace-corner.toml", "note", "\"other\"");
  EXPECT_EQ(hash(), before);
  set("tray-light.toml", "name", "\"feather\"");
  set("firing.toml", "tray", "\"feather\"");
  set("instruction-dentine-on-zirconia-sheet.toml", "tray", "\"feather\"");
  EXPECT_EQ(hash(), before);
}

TEST_F(Canonical, EachKindOfDecidingValueChangesTheHash) {
  const std::vector<std::array<std::string, 3>> changes{
      {"firing.toml", "room", "\"24.3 °C\""},
      {"firing.toml", "cold", "true"},
      {"firing.toml", "place", "\"edge\""},
      {"furnace-corner.toml", "sensor_lag", "\"5.9 s\""},
      {"program-dentine-on-zirconia.toml", "drying_time", "\"6 min 57 s\""},
      {"program-dentine-on-zirconia.toml", "level", "\"58.3 mbar\""},
      {"tray-light.toml", "mass", "\"11.9 g\""},
      {"support-pins.toml", "mass", "\"3.3 g\""},
      {"instruction-dentine-on-zirconia-sheet.toml", "rate_at_most", "\"62.7 K/min\""},
  };
  std::set<std::string> hashes{hash()};
  for (const auto& [file, key, value] : changes) {
    set(file, key, value);
    EXPECT_TRUE(hashes.insert(hash()).second) << file << ": " << key << " = " << value;
  }
}

TEST_F(Canonical, WhatDecidesStressAloneEntersWhereStressIsAskedFor) {
  ResolvedFiring firing = load_firing(folder_ / "firing.toml", nullptr);
  const std::string without = canonical_text(firing), with = canonical_text(firing, true);
  EXPECT_NE(without, with);
  Material& veneer = firing.materials.at("zirconia-veneer");
  veneer.properties.at("youngs_modulus").value += 1;
  EXPECT_EQ(canonical_text(firing), without);
  EXPECT_NE(canonical_text(firing, true), with);
  const std::string stiffer = canonical_text(firing, true);
  veneer.relaxation = "sealing-glass";
  EXPECT_EQ(canonical_text(firing), without);
  EXPECT_NE(canonical_text(firing, true), stiffer);
  veneer.properties.at("expansion").value += 1;
  EXPECT_NE(canonical_text(firing), without);
}

TEST_F(Canonical, LinesAreInTheSameOrderEachTimeAndHoldNoPersonsWords) {
  const auto firing = load_firing(folder_ / "firing.toml", nullptr);
  const std::string text = canonical_text(firing);
  EXPECT_EQ(text, canonical_text(load_firing(folder_ / "firing.toml", nullptr)));
  EXPECT_EQ(text.find("Invented"), std::string::npos);
  EXPECT_EQ(text.find("corner"), std::string::npos);
}

}  // namespace
}  // namespace heatwork::trade
