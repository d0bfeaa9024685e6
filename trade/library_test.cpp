#include "trade/library.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "trade/mistake.h"

namespace heatwork::trade {
namespace {

namespace fs = std::filesystem;

class FilesOfALab : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        fs::temp_directory_path() / ("heatwork-library-" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    library_.add(folder_shelf(folder_));
    library_.add(shipped_shelf());
  }
  void TearDown() override { fs::remove_all(folder_); }

  void put(const std::string& file, const std::string& text) const { std::ofstream(folder_ / file) << text; }
  void put_tray(const std::string& file, const std::string& name, const std::string& mass) const {
    put(file, "format = 1\n[tray]\nname = \"" + name + "\"\n" + (mass.empty() ? "" : "mass = \"" + mass + "\"\n") +
                  "material = \"alumina-fibre\"\ndiameter = \"61 mm\"\nthickness = \"7 mm\"\n");
  }
  [[nodiscard]] std::string mistake_of(Noun noun, const std::string& name) const {
    try {
      (void)library_.find(noun, name, {});
    } catch (const Mistake& mistake) {
      std::string sentence = mistake.sentence();
      for (auto at = sentence.find(folder_.string() + "/"); at != std::string::npos; at = sentence.find(folder_.string() + "/"))
        sentence.erase(at, folder_.string().size() + 1);
      return sentence;
    }
    return {};
  }

  fs::path folder_;
  Library library_{nullptr};
};

TEST_F(FilesOfALab, FindsBesideTheFileBeforeWhatShipsAndSaysWhere) {
  EXPECT_EQ(library_.find(Noun::material, "glaze", {}).place, "shipped: materials/glaze.toml");
  EXPECT_EQ(library_.find(Noun::material, "glaze", {}).source->name, "shipped:materials/glaze.toml");
  put("own.toml", "format = 1\n[material]\nname = \"glaze\"\nkind = \"powder\"\n");
  Library again(nullptr);
  again.add(folder_shelf(folder_));
  again.add(shipped_shelf());
  EXPECT_EQ(again.find(Noun::material, "glaze", {}).place, "beside: own.toml");
}

TEST_F(FilesOfALab, TwoOfOneNameInOnePlaceAreAMistake) {
  put_tray("a.toml", "light", "12 g");
  put_tray("b.toml", "light", "13 g");
  EXPECT_EQ(mistake_of(Noun::tray, "light"),
            "tray \"light\" stands twice beside the file, in a.toml and in b.toml; a name may stand once in a place");
}

TEST_F(FilesOfALab, TheSameNameOfAnotherKindIsNoMistake) {
  put_tray("a.toml", "light", "12 g");
  put("b.toml", "format = 1\n[material]\nname = \"light\"\nkind = \"other\"\n");
  EXPECT_EQ(library_.find(Noun::tray, "light", {}).place, "beside: a.toml");
}

TEST_F(FilesOfALab, ANameNotFoundIsAnsweredByTheNearest) {
  put_tray("a.toml", "light", "12 g");
  EXPECT_EQ(mistake_of(Noun::tray, "lihgt"),
            "tray \"lihgt\" is found neither beside the file nor among what ships; did you mean \"light\"?");
  EXPECT_EQ(mistake_of(Noun::tray, "boat"), "tray \"boat\" is found neither beside the file nor among what ships; known are light");
  EXPECT_EQ(mistake_of(Noun::material, "glaz"),
            "material \"glaz\" is found neither beside the file nor among what ships; did you mean \"glaze\"?");
}

TEST_F(FilesOfALab, AnUnreadableFileThatMayBeTheOneMeantIsNotPassedOver) {
  put("broken.toml", "format = 1\n[material]\nname = \"glaze\"\nkind = \"powder\n");
  EXPECT_EQ(mistake_of(Noun::material, "glaze"), "a text in quotes ends on its own line; close the quotes");
  put("other.toml", "colour = \"red\"\n");
  put("folder.toml.txt", "nothing");
  EXPECT_EQ(library_.find(Noun::liquid, "water", {}).place, "shipped: liquids/water.toml");
}

TEST_F(FilesOfALab, TheDemoLabDoesNotShipByName) {
  EXPECT_FALSE(mistake_of(Noun::furnace, "corner").empty());
}

TEST_F(FilesOfALab, MissingAndTooLargeFilesAreRefusedByName) {
  EXPECT_THROW((void)source_from_file(folder_ / "none.toml"), Mistake);
  EXPECT_THROW((void)source_from_file(folder_), Mistake);
  put("big.toml", std::string(2'000'000, '#'));
  EXPECT_THROW((void)source_from_file(folder_ / "big.toml"), Mistake);
}

class DemoLab : public FilesOfALab {
 protected:
  void SetUp() override {
    FilesOfALab::SetUp();
    fs::copy(fs::path(HEATWORK_SOURCE_DIR) / "data/demo", folder_, fs::copy_options::recursive);
    for (const auto& entry : fs::directory_iterator(folder_)) fs::permissions(entry.path(), fs::perms::owner_write, fs::perm_options::add);
  }
  void change(const std::string& file, const std::string& from, const std::string& to) const {
    std::stringstream text;
    text << std::ifstream(folder_ / file).rdbuf();
    std::string changed = text.str();
    ASSERT_NE(changed.find(from), std::string::npos) << file << " holds no " << from;
    changed.replace(changed.find(from), from.size(), to);
    put(file, changed);
  }
};

TEST_F(DemoLab, AFiringFindsAllItNames) {
  const auto firing = load_firing(folder_ / "firing.toml", nullptr);
  ASSERT_EQ(firing.pieces.size(), firing.firing.pieces.size());
  EXPECT_EQ(firing.places.size(), firing.pieces.size());
  EXPECT_EQ(firing.furnace.name, firing.firing.furnace.value);
  ASSERT_TRUE(firing.instruction.has_value());
  EXPECT_TRUE(firing.instruction_program.has_value());
  ASSERT_TRUE(firing.instruction_tray.has_value());
  EXPECT_FALSE(firing.instruction_tray_is_lightest);
  for (const auto& piece : firing.pieces)
    for (const auto& section : piece.sections)
      for (const auto& layer : section.layers) EXPECT_TRUE(firing.materials.contains(layer.material.value)) << layer.material.value;
  ASSERT_GE(firing.lab_trays.size(), 2U);
  EXPECT_LT(firing.lab_trays.front().mass->value, firing.lab_trays.back().mass->value);
  ASSERT_FALSE(firing.came_from.empty());
  EXPECT_EQ(firing.came_from.front().first, "furnace corner");
  EXPECT_EQ(firing.came_from.front().second, "beside: furnace-corner.toml");
}

TEST_F(DemoLab, EveryFiringOfTheDemoLabIsFoundWhole) {
  std::size_t count = 0;
  for (const auto& name : library_.names(Noun::firing)) {
    const Found found = library_.find(Noun::firing, name, {});
    EXPECT_NO_THROW((void)library_.resolve(read_noun<Firing>(found.source))) << name;
    ++count;
  }
  EXPECT_GE(count, 5U);
}

TEST_F(DemoLab, WithoutATrayOnTheSheetTheLightestOfTheLabStandsIn) {
  change("instruction-dentine-on-zirconia-sheet.toml", "tray = \"light\"\n", "");
  const auto firing = load_firing(folder_ / "firing.toml", nullptr);
  EXPECT_TRUE(firing.instruction_tray_is_lightest);
  EXPECT_EQ(firing.instruction_tray->name, firing.lab_trays.front().name);
}

TEST_F(DemoLab, ANameThatIsNotFoundPointsAtTheLineThatAsks) {
  change("firing.toml", "furnace = \"corner\"", "furnace = \"cornr\"");
  try {
    (void)load_firing(folder_ / "firing.toml", nullptr);
    FAIL() << "no mistake was found";
  } catch (const Mistake& mistake) {
    EXPECT_EQ(mistake.sentence(), "furnace \"cornr\" is found neither beside the file nor among what ships; did you mean \"corner\"?");
    EXPECT_EQ(mistake.place().column, 11);
    EXPECT_GT(mistake.place().line, 0);
  }
}

TEST_F(DemoLab, EarlierFiringsAreFoundAndToldOnce) {
  change("firing.toml", "[firing]\n", "[firing]\nafter = [\"window-firing\"]\n");
  const auto firing = load_firing(folder_ / "firing.toml", nullptr);
  ASSERT_EQ(firing.earlier.size(), 1U);
  EXPECT_EQ(firing.earlier[0].furnace.name, "window");
  EXPECT_TRUE(firing.earlier[0].earlier.empty());
  change("firing.toml", "after = [\"window-firing\"]", "after = [\"firing\"]");
  EXPECT_THROW((void)load_firing(folder_ / "firing.toml", nullptr), Mistake);
}

TEST_F(DemoLab, EveryTextThatANumberHangsOnIsNamedOnceWithItsBytes) {
  change("tray-light.toml", "mass = ", "# mass = ");
  const auto firing = load_firing(folder_ / "firing.toml", nullptr);
  ASSERT_FALSE(firing.tray.mass);
  std::set<std::pair<std::string, std::string>> used;
  for (const auto& text : firing.used) {
    EXPECT_TRUE(used.emplace(text.kind, text.name).second) << text.kind << " " << text.name << " stands twice";
    EXPECT_FALSE(text.source->text.empty());
    EXPECT_EQ(text.version, 0);
  }
  for (const auto& [what, where] : firing.came_from)
    EXPECT_TRUE(used.contains({what.substr(0, what.find(' ')), what.substr(what.find(' ') + 1)})) << what;
  // The tray has no mass: the lab's others bound it, though nobody names them.
  EXPECT_TRUE(used.contains({"tray", "heavy"}) && used.contains({"tray", "middle"}));
  change("tray-light.toml", "# mass = ", "mass = ");
  for (const auto& text : load_firing(folder_ / "firing.toml", nullptr).used) EXPECT_FALSE(text.name == "heavy" || text.name == "middle");
}

TEST_F(DemoLab, AFiringOfThePastComesWithWhatItWasFiredWith) {
  change("firing.toml", "[firing]\n", "[firing]\nafter = [\"window-firing\"]\n");
  const auto firing = read_noun<Firing>(source_from_file(folder_ / "firing.toml"));
  const auto then = load_firing(folder_ / "window-firing.toml", nullptr);
  put("furnace-window.toml", "format = 1\n[furnace]\nname = \"window\"\n");  // what stands now can no longer be fired in
  Library library(nullptr);
  library.add(folder_shelf(folder_));
  library.add(shipped_shelf());
  EXPECT_THROW((void)library.resolve(firing), Mistake);
  const auto found = library.resolve(firing, [&](const Firing& as_found) {
    EXPECT_EQ(as_found.name, "window-firing");
    return std::optional(then);
  });
  ASSERT_EQ(found.earlier.size(), 1U);
  EXPECT_EQ(found.earlier[0].furnace.name, "window");
  for (const auto& text : found.used) EXPECT_NE(text.name, "window") << "what it was fired with is its own";
}

}  // namespace
}  // namespace heatwork::trade
