// Drafts checked without keeping, values and forms by key, and the lab itself, on each engine.
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/check_draft.h"
#include "desk/lab/form.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_show.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/store_care.h"
#include "desk/lab/store_place.h"
#include "records/store_for_tests.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using trade::Noun;

class Draft : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    make_store(asked());
    add_kept(asked(), Noun::tray, {{"light"}, {"material=alumina-fibre", "diameter=6.9 cm", "thickness=7.8 mm"}, "", ""});
  }
  [[nodiscard]] AskedLab asked() const { return {address_.where, "mara"}; }
};

using Told = std::vector<std::pair<std::string, std::string>>;

Told mistakes_in(const CareAnswer& answer) {
  Told told;
  for (const Json& each : *answer.json.find("mistakes")->list())
    told.emplace_back(*each.find("key")->text(), *each.find("sentence")->text());
  return told;
}

std::vector<std::string> keys(const Told& told) {
  std::vector<std::string> all;
  for (const auto& [key, sentence] : told) all.push_back(key);
  return all;
}

std::string refusal(const std::function<void()>& call) {
  try {
    call();
  } catch (...) {
    return explain(std::current_exception()).sentence;
  }
  return "accepted";
}

TEST_P(Draft, AllMistakesAreToldByKeyAndNothingIsKept) {
  const CareAnswer answer =
      check_change(asked(), Noun::tray, {"light", "", {"mass=light", "diametre=7 cm", "thickness=7.8 mn"}, {}, 0, "", ""});
  EXPECT_TRUE(answer.wrong);
  EXPECT_EQ(keys(mistakes_in(answer)), (std::vector<std::string>{"diametre", "mass", "thickness"}));
  EXPECT_EQ(mistakes_in(answer).front().second, "a tray has no \"diametre\"; did you mean \"diameter\"?");
  EXPECT_EQ(*answer.json.find("newest")->number(), 1);
  EXPECT_FALSE(check_change(asked(), Noun::tray, {"light", "", {"mass=11 g"}, {}, 0, "", ""}).wrong);
  EXPECT_EQ(*show_kept(asked(), Noun::tray, "light").json.find("version")->number(), 1);
}

TEST_P(Draft, ANewOneIsCheckedAsAWhole) {
  const auto told = mistakes_in(check_new(asked(), Noun::tray, {{"heavy/../x"}, {"mass=1 g"}, "", ""}));
  EXPECT_EQ(keys(told), (std::vector<std::string>{"name", "material", "diameter", "thickness"}));
  const auto twice =
      mistakes_in(check_new(asked(), Noun::tray, {{"light"}, {"material=alumina-fibre", "diameter=69 mm", "thickness=7.8 mm"}, "", ""}));
  ASSERT_EQ(twice.size(), 1U);
  EXPECT_EQ(twice[0].second, "tray light is kept already, in version 1; give this one a name of its own.");
  EXPECT_EQ(keys(mistakes_in(check_new(asked(), Noun::tray, {{}, {}, "", "format = 1\n[tray\n"}))), (std::vector<std::string>{""}));
}

TEST_P(Draft, TheThirdOfAListHasAPlaceAfterTheSecond) {
  const std::vector<trade::Edit> edits{{"heating[3].to", "900 °C"},     {"heating[3].rate", "30 K/min"}, {"heating[2].to", "880 °C"},
                                       {"heating[2].rate", "40 K/min"}, {"heating[1].to", "800 °C"},     {"heating[1].rate", "50 K/min"},
                                       {"heating[9].to", "950 °C"},     {"standby", "400 °C"},           {"entry", "400 °C"}};
  const auto told = mistakes_of_edits(Noun::program, "", "p", edits);
  ASSERT_FALSE(told.empty());
  EXPECT_EQ(told.front().key, "heating[9].to");
  for (const DraftMistake& each : told) EXPECT_FALSE(each.key.starts_with("heating[2]")) << each.sentence;
}

TEST_P(Draft, ValuesKeepWhatWasTyped) {
  const Json shown = show_kept(asked(), Noun::tray, "light").json;
  const JsonList& values = *shown.find("values")->list();
  Told told;
  for (const Json& each : values)
    told.emplace_back(*each.find("key")->text(), *each.find("typed")->text() + " = " + *each.find("text")->text());
  EXPECT_EQ(told, (Told{{"name", "light = light"},
                        {"material", "alumina-fibre = alumina-fibre"},
                        {"diameter", "6.9 cm = 69 mm"},
                        {"thickness", "7.8 mm = 7.8 mm"}}));
  EXPECT_DOUBLE_EQ(*values[2].find("si")->number(), 0.069);
}

TEST_P(Draft, WhatWasTypedStaysThroughChangesOfOtherValues) {
  change_kept(asked(), Noun::tray, {"light", "", {"mass=0.0117 kg"}, {}, 1, "weighed", ""});
  change_kept(asked(), Noun::tray, {"light", "", {"thickness=0,8 cm"}, {}, 2, "measured", ""});
  const Json shown = show_kept(asked(), Noun::tray, "light").json;
  std::vector<std::string> typed;
  for (const Json& each : *shown.find("values")->list()) typed.push_back(*each.find("typed")->text());
  EXPECT_EQ(typed, (std::vector<std::string>{"light", "0.0117 kg", "alumina-fibre", "6.9 cm", "0,8 cm"}));
}

TEST_P(Draft, AConflictTellsBothVersions) {
  change_kept(asked(), Noun::tray, {"light", "", {"mass=11 g"}, {}, 1, "weighed", ""});
  try {
    change_kept(asked(), Noun::tray, {"light", "", {"mass=12 g"}, {}, 1, "weighed", ""});
    FAIL() << "kept over another";
  } catch (const ChangedMeanwhile& meanwhile) {
    EXPECT_EQ(meanwhile.versions().kind, "tray");
    EXPECT_EQ(meanwhile.versions().name, "light");
    EXPECT_EQ(meanwhile.versions().from, 1);
    EXPECT_EQ(meanwhile.versions().newest, 2);
  }
}

TEST_P(Draft, ATextIsKeptAsAFileWouldBe) {
  const std::string text =
      "format = 1\n[tray]\nname = \"heavy\"\nmaterial = \"alumina-fibre\"\ndiameter = \"9 cm\"\nthickness = \"1 cm\"\n";
  add_kept(asked(), Noun::tray, {{}, {}, "", text});
  EXPECT_EQ(*show_kept(asked(), Noun::tray, "heavy").json.find("version")->number(), 1);
  EXPECT_EQ(refusal([&] {
              add_kept(asked(), Noun::program, {{}, {}, "", text});
            }),
            "the text holds a tray; \"heatwork program\" keeps a program.");
  std::string next = text;
  next.replace(next.find("9 cm"), 4, "8 cm");
  change_kept(asked(), Noun::tray, {"heavy", "", {}, {}, 1, "measured", next});
  EXPECT_EQ(*show_kept(asked(), Noun::tray, "heavy").json.find("version")->number(), 2);
}

TEST_P(Draft, TheLabSpeaksWhereTheSettingsSayNothing) {
  const auto said = [&](const char* key) { return *show_lab(asked()).json.find(key)->text(); };
  EXPECT_FALSE(*show_lab(asked()).json.find("kept")->truth());
  LabWords words;
  words.called = "Bench by the river";
  words.language = "de";
  words.reason = "set up";
  set_lab(asked(), words);
  EXPECT_EQ(said("name"), "Bench by the river");
  EXPECT_EQ(said("language"), "de");
  EXPECT_EQ(said("language_from"), "lab");
  EXPECT_NE(said("units_from"), "lab");
  EXPECT_EQ(refusal([&] { set_lab(asked(), words); }), "That is what version 1 of the lab says already; nothing was kept.");
  words.units = "kelvin";
  EXPECT_NE(refusal([&] { set_lab(asked(), words); }).find("units: \"kelvin\" is not known; allowed are celsius, fahrenheit"),
            std::string::npos);
  words.units = "fahrenheit";
  words.language = "";
  set_lab(asked(), words);
  records::Store store = opened(place_of(asked()), Reading::only);
  Settings machine;
  machine.units = "celsius";
  EXPECT_EQ(lab_settings(store, machine).units, "celsius") << "the machine's own setting comes first";
  EXPECT_EQ(lab_settings(store, machine).says_units, "fahrenheit");
  EXPECT_NE(said("language_from"), "lab");
  EXPECT_EQ(said("units_from"), "lab");
}

TEST_P(Draft, AStoreIsThatOfOneLabAndItStaysWhatItWas) {
  LabWords words;
  words.called = "one";
  words.reason = "set up";
  set_lab(asked(), words);
  EXPECT_EQ(refusal([&] {
              add_kept(asked(), Noun::lab, {{"other"}, {}, "", ""});
            }),
            "This store is that of one lab, kept as lab lab; another, other, is not kept beside it.");
  EXPECT_EQ(refusal([&] {
              change_kept(asked(), Noun::lab, {"lab", "", {"demo=true"}, {}, 0, "x", ""});
            }),
            "Whether a lab is there to play with (demo) stays what it was when it was first kept.");
}

HEATWORK_ON_EACH_ENGINE(Draft);

TEST(Form, IsSaidInTheReadersLanguageAndUnits) {
  const auto field = [](const CareAnswer& form, std::string_view key) -> const Json& {
    for (const Json& each : *form.json.find("fields")->list())
      if (*each.find("key")->text() == key) return each;
    throw std::runtime_error("no such field");
  };
  const auto celsius = form_for(Noun::program, trade::Language::english, report::TemperatureScale::celsius);
  const auto fahrenheit = form_for(Noun::program, trade::Language::german, report::TemperatureScale::fahrenheit);
  EXPECT_EQ(*field(celsius, "entry").find("unit")->text(), "°C");
  EXPECT_EQ(*field(celsius, "entry").find("example")->text(), "850 °C");
  EXPECT_EQ(*field(celsius, "preheat_hold").find("example")->text(), "0 s") << "the default";
  EXPECT_EQ(*field(fahrenheit, "entry").find("unit")->text(), "°F");
  EXPECT_EQ(*field(fahrenheit, "entry").find("example")->text(), "1562 °F");
  EXPECT_EQ(*field(fahrenheit, "entry").find("kind")->text(), "a temperature");
  EXPECT_EQ(*field(celsius, "drying_time").find("label")->text(), "Drying time");
  EXPECT_EQ(*field(fahrenheit, "drying_time").find("label")->text(), "Trockenzeit");
  EXPECT_EQ(*fahrenheit.json.find("label")->text(), "Programm");
  EXPECT_EQ(*field(celsius, "drying_opening").find("range")->text(), "0 % to 100 %");
  EXPECT_EQ(*field(fahrenheit, "drying_opening").find("range")->text(), "0 % bis 100 %");
  const auto firing = form_for(Noun::firing, trade::Language::german, report::TemperatureScale::celsius);
  EXPECT_EQ(*field(firing, "furnace").find("refers_to")->text(), "furnace");
  EXPECT_EQ(*field(firing, "stage").find("choices")->list()->front().find("value")->text(), "heat treatment");
}

}  // namespace
}  // namespace heatwork::desk
