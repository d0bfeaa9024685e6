// A ceramist fires a trial of his powder, says how it came out, and fires with the material that gives.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace heatwork::outside {
namespace {

using Json = nlohmann::json;

/// The demo lab in a folder of its own.
class OwnMaterial : public testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(run({"demo", folder_.at("lab")}).code, 0); }
  /// Calibrates from a firing of the lab into lab/own.toml, as "own" where not said otherwise.
  Ended calibrate(const std::string& firing, std::vector<std::string> more = {}) const {
    std::vector<std::string> words{"material", "calibrate", firing, "--name", "own", "--output", "own.toml"};
    words.insert(words.end(), more.begin(), more.end());
    return in_lab(words);
  }
  Ended in_lab(const std::vector<std::string>& words) const {
    Setting setting;
    setting.folder = folder_.path() / "lab";
    return run(words, setting);
  }
  Json asked(const std::string& firing, std::vector<std::string> more = {}) const {
    more.emplace_back("--json");
    const Ended ended = calibrate(firing, more);
    EXPECT_EQ(ended.code, 0) << ended.err;
    return Json::parse(ended.out, nullptr, false);
  }
  void change(const std::string& file, const std::string& from, const std::string& to) const {
    folder_.write("lab/" + file, replaced(folder_.read("lab/" + file), from, to));
  }
  /// One sentence, exit code 2, nothing written.
  void refused(const std::string& firing, const std::vector<std::string>& more, const std::string& sentence) const {
    const auto before = folder_.names();
    const Ended ended = calibrate(firing, more);
    EXPECT_EQ(ended.code, 2) << sentence;
    EXPECT_EQ(ended.err, sentence + "\n");
    EXPECT_EQ(ended.out, "");
    EXPECT_EQ(folder_.names(), before);
  }
  const Folder folder_;
};

TEST_F(OwnMaterial, FiredAgainItDoesWhatItsClassDoesInANominalFiring) {
  const Json made = asked("glaze-firing.toml");
  while (folder_.read("lab/piece-veneer-11.toml").find("material = \"glaze\"") != std::string::npos)
    change("piece-veneer-11.toml", "material = \"glaze\"", "material = \"own\"");
  const Ended again = in_lab({"rehearse", "glaze-firing.toml", "--json"});
  ASSERT_LE(again.code, 1) << again.err;
  const Json rehearsed = Json::parse(again.out);
  EXPECT_EQ(rehearsed["came_from"]["material own"], "beside: own.toml");
  const double wanted = made["point"]["heat_work_right"];
  EXPECT_NEAR(rehearsed["pieces"][0]["end"]["heat_work"].get<double>() / wanted, 1.0, 0.005);
}

TEST_F(OwnMaterial, SaysWhatWasTakenAndWhatToDoNext) {
  const Ended ended = calibrate("window-firing.toml", {"--piece", "crown-16", "--degree", "-10 K"});
  EXPECT_EQ(ended.code, 0) << ended.err;
  EXPECT_EQ(ended.err, "");
  EXPECT_LE(widest(ended.out), 100U);
  for (const char* said : {"own fires right at", "crown-16 looked like 10 K too little", "section thickest", "± 10 K in furnace window",
                           "write material = \"own\"", "stands"})
    EXPECT_NE(ended.out.find(said), std::string::npos) << said << "\n" << ended.out;
}

TEST_F(OwnMaterial, TheFileIsReadShownAndHasNoKeyTheSchemaLacks) {
  const Json made = asked("glaze-firing.toml", {"--glass-transition", "501 °C"});
  const Ended shown = in_lab({"material", "show", "own.toml", "--json"});
  ASSERT_EQ(shown.code, 0) << shown.err;
  const Json own = Json::parse(shown.out);
  EXPECT_EQ(own["calibrated"], Json::parse(R"({"furnace": "window", "tray": "light", "within_K": 10, "display_error_u_K": 1.1})"));
  for (const Json& each : own["properties"]) {
    if (each["property"] == "viscosity_A") {
      EXPECT_EQ(each["standing"], "computed");
      EXPECT_EQ(each["low"], made["viscosity"]["A_low"]);
      EXPECT_EQ(each["high"], made["viscosity"]["A_high"]);
    }
    if (each["property"] == "glass_transition") {
      EXPECT_EQ(each["value"], 501);
    }
  }
  const Json schema = Json::parse(in_lab({"schema", "material"}).out)["properties"]["material"]["properties"];
  EXPECT_EQ(schema["calibrated"]["required"], Json::parse(R"(["furnace", "tray", "within"])"));
  EXPECT_EQ(schema["calibrated"]["additionalProperties"], false);
  EXPECT_NE(in_lab({"material", "show", "own.toml"}).out.find("calibrated by a trial firing in furnace window"), std::string::npos);
}

TEST_F(OwnMaterial, SoManyKelvinTooMuchMovesItSoFarDown) {
  const double right = asked("glaze-firing.toml")["moved_K"];
  ASSERT_EQ(in_lab({"material", "calibrate", "glaze-firing.toml", "--degree", "10 K", "--name", "softer", "--output", "softer.toml"}).code,
            0);
  const Json softer = Json::parse(
      in_lab({"material", "calibrate", "glaze-firing.toml", "--degree=18 °F", "--name", "s2", "--output", "s2.toml", "--json"}).out);
  EXPECT_NEAR(softer["moved_K"].get<double>(), right - 10, 0.5);
}

TEST_F(OwnMaterial, TheSameTrialGivesTheSameBytes) {
  const Json first = asked("glaze-firing.toml");
  const std::string bytes = folder_.read("lab/own.toml");
  std::filesystem::remove(folder_.at("lab/own.toml"));
  EXPECT_EQ(asked("glaze-firing.toml"), first);
  EXPECT_EQ(folder_.read("lab/own.toml"), bytes);
}

TEST_F(OwnMaterial, ADisplayNeverCheckedIsTakenWithItsRangeAndACaution) {
  const std::string furnace = folder_.read("lab/furnace-window.toml");
  const auto from = furnace.find("[furnace.display_error]"), to = furnace.find("[furnace.heating]");
  folder_.write("lab/furnace-window.toml", furnace.substr(0, from) + furnace.substr(to));
  const Json made = asked("glaze-firing.toml");
  EXPECT_NEAR(made["within_K"]["here"].get<double>(), 26, 1e-6);
  EXPECT_TRUE(made["within_K"]["another_furnace_known_as_well"].is_null());
  ASSERT_EQ(made["cautions"].size(), 1U);
  EXPECT_NE(made["cautions"][0].get<std::string>().find("never checked"), std::string::npos);
}

TEST_F(OwnMaterial, AFiringFarFromItsClassIsCautionedAgainst) {
  EXPECT_EQ(asked("glaze-firing.toml", {"--degree", "-140 K"})["cautions"].size(), 1U);
}

TEST_F(OwnMaterial, WhatWasFiredMustBeToldApart) {
  refused("window-firing.toml", {},
          "The firing window-firing holds 2 pieces, crown-16, bridge-24-26; name with --piece the one that was judged.");
  refused("window-firing.toml", {"--piece", "crown"},
          "--piece: there is no piece \"crown\" in the firing window-firing; it holds crown-16, bridge-24-26.");
  refused("window-firing.toml", {"--piece", "crown-16", "--material", "glaze"},
          "--material: no green layer of crown-16 is of \"glaze\"; it has zirconia-veneer.");
  refused("crystallise-firing.toml", {},
          "lithium-disilicate-block is no powder or glaze: it crystallises, and no nominal firing of it is known to hold a trial against.");
  change("piece-crown-16.toml", "material = \"zirconia-veneer\"", "material = \"zirconia-veneer-lower\"");
  refused(
      "window-firing.toml", {"--piece", "crown-16"},
      "The piece crown-16 has green layers of zirconia-veneer and zirconia-veneer-lower; name with --material the one that was judged.");
  EXPECT_EQ(calibrate("window-firing.toml", {"--piece", "crown-16", "--material", "zirconia-veneer"}).code, 0);
}

TEST_F(OwnMaterial, ATrialIsOfFreshPowder) {
  change("piece-veneer-11.toml", "green = true", "green = false");
  std::string piece = folder_.read("lab/piece-veneer-11.toml");
  for (auto at = piece.find("liquid ="); at != std::string::npos; at = piece.find("liquid =")) piece.erase(at, piece.find('\n', at) - at);
  for (auto at = piece.find("green = true"); at != std::string::npos; at = piece.find("green = true")) piece.erase(at, 12);
  folder_.write("lab/piece-veneer-11.toml", piece);
  refused("glaze-firing.toml", {},
          "The piece veneer-11 has no green layer, so this firing is no trial of a powder or glaze; mark the layer that was built up with "
          "green = true.");
  change("glaze-firing.toml", "stage = \"glaze\"", "after = [\"window-firing\"]\nstage = \"glaze\"");
  refused(
      "glaze-firing.toml", {},
      "The firing glaze-firing names firings before it; a trial is of fresh powder: leave out \"after\", and give what was fired before "
      "as layers that are not green.");
}

TEST_F(OwnMaterial, WhatNobodyCanTellIsRefused) {
  change("glaze-firing.toml", "tray = \"light\"", "tray = \"middle\"");
  change("tray-middle.toml", "mass = \"33.4 g\"", "");
  refused("glaze-firing.toml", {},
          "The mass of tray middle is not given, so nobody can tell how warm the piece became; weigh it and write its mass into the tray's "
          "file.");
}

TEST_F(OwnMaterial, ATrialBeyondTheSearchIsRefused) {
  change("program-glaze-film.toml", "to = \"743 °C\"", "to = \"530 °C\"");
  const Ended ended = calibrate("glaze-firing.toml", {"--degree", "90 K"});
  EXPECT_EQ(ended.code, 2);
  EXPECT_EQ(ended.err.find("The trial glaze-firing tells no glass near glaze: "), 0U) << ended.err;
}

TEST_F(OwnMaterial, NumbersAndNamesAreCheckedBeforeAnythingIsComputed) {
  refused("glaze-firing.toml", {"--degree", "200 K"}, "--degree: \"200 K\" is out of range; allowed is -150 K to 150 K.");
  refused("glaze-firing.toml", {"--degree", "10"},
          "--degree: \"10\" has no unit; a temperature difference is written such as \"12 K\" (K, °C, °F).");
  refused("glaze-firing.toml", {"--glass-transition", "900 °C"},
          "--glass-transition: \"900 °C\" is out of range; allowed is 200 °C to 719 °C, 20 K below where glaze fires.");
  const auto named = [&](const std::string& name, const std::string& output, const std::string& sentence) {
    const Ended ended = in_lab({"material", "calibrate", "glaze-firing.toml", "--name", name, "--output", output});
    EXPECT_EQ(ended.code, 2);
    EXPECT_EQ(ended.err, sentence + "\n");
  };
  named("My Glaze", "own.toml", "--name: \"My Glaze\" is not a name; allowed are up to 60 letters a to z, digits, - and _.");
  named("glaze", "own.toml", "--name glaze: a material of that name ships with Heatwork; give yours a name of its own.");
  named("own", "own.txt", "--output own.txt: the name must end in .toml, or no firing finds the material.");
  named("own", "nowhere/own.toml", "nowhere: there is no such folder.");
}

TEST_F(OwnMaterial, NothingThatStandsThereIsReplacedOrNamedTwice) {
  ASSERT_EQ(calibrate("glaze-firing.toml").code, 0);
  const std::string bytes = folder_.read("lab/own.toml");
  refused("glaze-firing.toml", {"--degree", "10 K"},
          "own.toml stands there already and is never replaced; move it away or name another file.");
  EXPECT_EQ(folder_.read("lab/own.toml"), bytes);
  const Ended twice = in_lab({"material", "calibrate", "glaze-firing.toml", "--name", "own", "--output", "other.toml"});
  EXPECT_EQ(twice.code, 2);
  EXPECT_EQ(twice.err, "--name own: own.toml holds a material of that name already; give yours another.\n");
}

}  // namespace
}  // namespace heatwork::outside
