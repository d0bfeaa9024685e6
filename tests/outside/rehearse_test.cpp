// A ceramist takes the demo lab, asks what a firing will do, changes one thing and asks again.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "program.h"

namespace heatwork::outside {
namespace {

/// The demo lab in a folder of its own.
class Lab : public testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(run({"demo", folder_.at("lab")}).code, 0); }
  Ended rehearse(const std::string& file, std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"rehearse", folder_.at("lab/" + file)});
    return run(more);
  }
  void change(const std::string& file, const std::string& from, const std::string& to) const {
    folder_.write("lab/" + file, replaced(folder_.read("lab/" + file), from, to));
  }
  nlohmann::json numbers(const std::string& file, std::vector<std::string> more = {}) const {
    more.insert(more.begin(), "--json");
    const Ended ended = rehearse(file, more);
    EXPECT_LE(ended.code, 1) << ended.err;
    return nlohmann::json::parse(ended.out, nullptr, false);
  }
  const Folder folder_;
};

TEST_F(Lab, TheFirstFindingComparesWithTheMakersFiring) {
  const Ended ended = rehearse("firing.toml");
  EXPECT_EQ(ended.err, "");
  EXPECT_LE(widest(ended.out), 100U);
  const std::string first = ended.out.substr(0, ended.out.find("\n\n"));
  EXPECT_NE(first.find("The maker's own firing"), std::string::npos) << first;
  EXPECT_NE(ended.out.find("Not a medical device."), std::string::npos);
}

TEST_F(Lab, TheExitCodeSaysWhetherAFaultIsExpected) {
  EXPECT_EQ(rehearse("window-firing.toml").code, 0);
  EXPECT_EQ(rehearse("stain-firing.toml").code, 0) << "cannot tell is no fault";
  for (const char* file : {"leak.toml", "thirty-kelvin-short.toml", "vacuum-released-early.toml"}) {
    const Ended ended = rehearse(file);
    EXPECT_EQ(ended.code, 1) << file;
    EXPECT_EQ(ended.out.find("fault expected"), 0U) << "the worst comes first: " << file;
  }
}

TEST_F(Lab, AFurnaceThatReadsHighGivesThePieceLess) {
  const auto piece = numbers("firing.toml")["pieces"][0];
  EXPECT_LT(piece["compared"]["shift_K"], -9);
  EXPECT_LT(piece["compared"]["hold_s"], -10);
  EXPECT_LT(piece["peak_C"]["core"], piece["peak_C"]["display"]);
}

TEST_F(Lab, EveryKeyOfTheContractIsThere) {
  const auto answer = numbers("firing.toml");
  for (const char* key : {"format", "program_version", "model_version", "data_version", "inputs_hash", "seed", "firing", "furnace",
                          "program", "instruction", "came_from", "reference", "checks", "pieces", "moments", "findings", "traces"}) {
    EXPECT_TRUE(answer.contains(key)) << key;
  }
  const std::string text = rehearse("firing.toml", {"--json"}).out;
  EXPECT_EQ(text.find("\"format\""), text.find('"')) << "format comes first";
  EXPECT_TRUE(answer["traces"].is_null());
  for (const char* key : {"tray", "assumptions"}) EXPECT_TRUE(answer["reference"].contains(key)) << key;
  ASSERT_EQ(answer["pieces"].size(), 2U);
  for (const auto& piece : answer["pieces"]) {
    for (const char* key : {"display", "chamber", "surface", "core"}) EXPECT_TRUE(piece["peak_C"][key].is_number()) << key;
    for (const char* key : {"quantity", "shift_K", "shift_low_K", "shift_high_K", "hold_s", "hold_low_s", "hold_high_s"}) {
      EXPECT_TRUE(piece["compared"].contains(key)) << key;
    }
    for (const char* key : {"water_left_g", "porosity_percent", "heat_work", "rounding_um", "crystallised_fraction", "crystal_um"}) {
      EXPECT_TRUE(piece["end"].contains(key)) << key;
    }
  }
  for (const auto& finding : answer["findings"]) {
    for (const char* key :
         {"aspect", "level", "piece", "sentence", "number", "unit", "low", "high", "limit", "limit_from", "change", "where"}) {
      EXPECT_TRUE(finding.contains(key)) << key;
    }
    EXPECT_FALSE(finding["sentence"].get<std::string>().empty());
  }
  for (const auto& moment : answer["moments"]) {
    for (const char* key : {"what", "piece", "at_s", "display_C"}) EXPECT_TRUE(moment.contains(key)) << key;
  }
}

TEST_F(Lab, TracesHaveOneLength) {
  const auto traces = numbers("firing.toml", {"--traces"})["traces"];
  const std::size_t rows = traces["s"].size();
  EXPECT_GT(rows, 50U);
  for (const char* key : {"display_C", "asked_C", "chamber_C", "pressure_mbar"}) EXPECT_EQ(traces[key].size(), rows) << key;
  for (const auto& piece : traces["pieces"]) {
    for (const char* key : {"surface_C", "core_C", "water_g", "porosity_percent"}) EXPECT_EQ(piece[key].size(), rows) << key;
  }
}

TEST_F(Lab, TheSameQuestionGetsTheSameBytes) {
  EXPECT_EQ(rehearse("firing.toml", {"--json", "--traces"}).out, rehearse("firing.toml", {"--json", "--traces"}).out);
  rehearse("firing.toml", {"--picture", folder_.at("a.svg")});
  rehearse("firing.toml", {"--picture", folder_.at("b.svg")});
  EXPECT_EQ(folder_.read("a.svg"), folder_.read("b.svg"));
}

TEST_F(Lab, ALabelOrANoteChangesNoNumberAndNoHash) {
  const auto before = numbers("firing.toml");
  change("firing.toml", "label = \"crown and bridge in the corner\"", "label = \"another label\"");
  EXPECT_EQ(numbers("firing.toml")["inputs_hash"], before["inputs_hash"]);
  change("program-dentine-on-zirconia.toml", "note = \"", "note = \"changed. ");
  const auto after = numbers("firing.toml");
  EXPECT_EQ(after["inputs_hash"], before["inputs_hash"]);
  EXPECT_EQ(after["pieces"], before["pieces"]);
}

TEST_F(Lab, AnUnknownTrayMassIsSaidAndNotGuessed) {
  const std::string tray = folder_.read("lab/tray-light.toml");
  const std::size_t at = tray.find("mass = ");
  ASSERT_NE(at, std::string::npos);
  folder_.write("lab/tray-light.toml", tray.substr(0, at) + tray.substr(tray.find('\n', at) + 1));
  std::set<std::string> seen;
  const auto answer = numbers("window-firing.toml");
  for (const auto& finding : answer["findings"]) {
    if (finding["aspect"] == "heat") {
      EXPECT_EQ(finding["level"], "cannot tell");
      seen.insert(finding["sentence"]);
    }
  }
  ASSERT_FALSE(seen.empty());
}

TEST_F(Lab, FahrenheitIsForReadersAndNotForJson) {
  const Ended text = rehearse("firing.toml", {"--units", "fahrenheit", "--no-strip"});
  EXPECT_NE(text.out.find("°F"), std::string::npos);
  EXPECT_EQ(rehearse("firing.toml", {"--units", "fahrenheit", "--json"}).out, rehearse("firing.toml", {"--json"}).out);
}

TEST_F(Lab, PicturesAreWhatTheirNamesSay) {
  for (const auto& [name, start] : {std::pair<std::string, std::string>{"p.svg", "<"}, {"p.png", "\x89PNG"}, {"p.pdf", "%PDF-"}}) {
    const Ended ended = rehearse("firing.toml", {"--picture", folder_.at(name)});
    EXPECT_LE(ended.code, 1) << ended.err;
    EXPECT_EQ(folder_.read(name).substr(0, start.size()), start) << name;
  }
  EXPECT_NE(folder_.read("p.svg").find("</svg>"), std::string::npos);
}

TEST_F(Lab, APictureThatCannotBeWrittenLeavesNothing) {
  const auto before = folder_.names();
  const Ended nowhere = rehearse("firing.toml", {"--picture", folder_.at("none/p.svg")});
  EXPECT_EQ(nowhere.code, 2);
  EXPECT_EQ(nowhere.err, folder_.at("none/p.svg") + " cannot be written: No such file or directory.\n");
  EXPECT_EQ(nowhere.out, "");
  std::filesystem::create_directory(folder_.path() / "d.svg");
  const Ended on_folder = rehearse("firing.toml", {"--picture", folder_.at("d.svg")});
  EXPECT_EQ(on_folder.code, 3);
  EXPECT_EQ(on_folder.out, "");
  std::filesystem::create_symlink("/dev/full", folder_.path() / "full.svg");
  const Ended full = rehearse("firing.toml", {"--picture", folder_.at("full.svg")});
  EXPECT_EQ(full.code, 3);
  EXPECT_EQ(full.err, folder_.at("full.svg") + " cannot be written: the disk is full.\n");
  std::filesystem::remove(folder_.path() / "full.svg");
  EXPECT_EQ(folder_.names(), before);
}

TEST_F(Lab, AMistakeIsShownWithItsLineAndACaret) {
  change("program-dentine-on-zirconia.toml", "to = \"", "too = \"");
  const Ended ended = rehearse("firing.toml");
  EXPECT_EQ(ended.code, 2);
  EXPECT_EQ(ended.out, "");
  EXPECT_NE(ended.err.find("program-dentine-on-zirconia.toml:"), std::string::npos) << ended.err;
  EXPECT_NE(ended.err.find("did you mean \"to\"?"), std::string::npos) << ended.err;
  EXPECT_NE(ended.err.find('^'), std::string::npos) << ended.err;
  EXPECT_EQ(run({"rehearse", folder_.at("lab/no-such.toml")}).code, 2);
}

TEST(Demo, WritesALabThatStandsByItself) {
  const Folder folder;
  const Ended ended = run({"demo"}, {.folder = folder.path()});
  EXPECT_EQ(ended.code, 0);
  const auto names = folder.names();
  EXPECT_GT(names.size(), 30U);
  for (const std::string& name : names) EXPECT_EQ(name.find("heatwork-demo/"), 0U) << name;
  const Ended again = run({"demo"}, {.folder = folder.path()});
  EXPECT_EQ(again.code, 0) << "what is there and the same is no fault";
  EXPECT_EQ(folder.names(), names);
  const auto json = nlohmann::json::parse(run({"demo", "other", "--json"}, {.folder = folder.path()}).out);
  EXPECT_EQ(json["written"].size(), names.size());
}

TEST(Demo, NeverWritesOverAnother) {
  const Folder folder;
  folder.write("lab/tray-light.toml", "mine\n");
  const Ended ended = run({"demo", "lab"}, {.folder = folder.path()});
  EXPECT_EQ(ended.code, 2);
  EXPECT_EQ(ended.out, "");
  EXPECT_EQ(ended.err,
            "lab/tray-light.toml stands there already and is another; nothing was written. Name an empty folder: heatwork demo FOLDER.\n");
  EXPECT_EQ(folder.names(), std::vector<std::string>{"lab/tray-light.toml"});
  EXPECT_EQ(folder.read("lab/tray-light.toml"), "mine\n");
  folder.write("file", "mine\n");
  const Ended on_file = run({"demo", "file"}, {.folder = folder.path()});
  EXPECT_EQ(on_file.code, 2);
  EXPECT_EQ(on_file.err, "file is no folder; nothing was written.\n");
}

}  // namespace
}  // namespace heatwork::outside
