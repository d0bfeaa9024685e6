// What a lab keeps, one by one: added, changed, locked, shown and told apart, on each engine.
#include <gtest/gtest.h>

#include <algorithm>
#include <future>
#include <string>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_show.h"
#include "desk/lab/materials_in_lab.h"
#include "records/store_for_tests.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using trade::Noun;

std::string text(const Json& json, const char* key) {
  const Json* found = json.find(key);
  return found != nullptr && found->text() != nullptr ? *found->text() : "";
}
double number(const Json& json, const char* key) {
  const Json* found = json.find(key);
  return found != nullptr && found->number() != nullptr ? *found->number() : -1;
}

class Kept : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    make_store(asked());
    add_kept(asked(), Noun::tray, {{"light"}, {"material=alumina-fibre", "diameter=69 mm", "thickness=7.8 mm"}, ""});
  }
  [[nodiscard]] AskedLab asked() const { return {address_.where, "mara"}; }

  [[nodiscard]] CareAnswer set(const std::string& value, int from = 0) const {
    return change_kept(asked(), Noun::tray, {"light", "", {value}, {}, from, "weighed"});
  }
  [[nodiscard]] double newest() const { return number(show_kept(asked(), Noun::tray, "light").json, "version"); }
};

/// What a refusal says, with its word; "kept" where it was none.
template <class Call>
std::pair<ErrorWord, std::string> said(Call&& call) {
  try {
    call();
  } catch (const Failure& failure) {
    return {failure.error(), failure.what()};
  } catch (const trade::Mistake& mistake) {
    return {ErrorWord::bad_file, mistake.sentence()};
  }
  return {ErrorWord::mistake_of_ours, "kept"};
}

TEST_P(Kept, NoUpdateIsLostWhereManyChangeTheSameVersion) {
  std::vector<std::future<std::string>> all;
  for (int i = 1; i <= 6; ++i)
    all.push_back(std::async(std::launch::async, [this, i] {
      const auto refused = said([&] { (void)set("mass=" + std::to_string(10 + i) + " g", 1); });
      EXPECT_TRUE(refused.second == "kept" || refused.first == ErrorWord::conflict) << refused.second;
      return refused.second;
    }));
  std::vector<std::string> answers;
  for (auto& each : all) answers.push_back(each.get());
  EXPECT_EQ(std::count(answers.begin(), answers.end(), "kept"), 1) << "one is kept";
  EXPECT_EQ(newest(), 2);
  for (const auto& each : answers) {
    if (each == "kept") continue;
    EXPECT_NE(each.find("Version 2 changed:\n  mass: added (1"), std::string::npos) << each;
    EXPECT_NE(each.find("Yours would have changed:\n  mass: added (1"), std::string::npos) << each;
  }
}

/// One after the other, so that it hangs on no race.
TEST_P(Kept, AChangeMadeFromAnOlderVersionIsRefusedWithBoth) {
  (void)set("mass=11 g", 1);
  const auto refused = said([&] { (void)set("thickness=8 mm", 1); });
  EXPECT_EQ(refused.first, ErrorWord::conflict);
  EXPECT_EQ(refused.second,
            "The tray \"light\" was changed meanwhile: version 2 stands, yours was made from version 1. Nothing was kept.\n"
            "Version 2 changed:\n  mass: added (11 g)\n"
            "Yours would have changed:\n  thickness: 8 mm instead of 7.8 mm\n"
            "Look at both, then change version 2.");
  EXPECT_EQ(newest(), 2);
}

TEST_P(Kept, AChangeTellsWhatItChangedAndTheVersionKept) {
  const CareAnswer changed = set("mass=11.7 g");
  const JsonList& changes = *changed.json.find("changes")->list();
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(text(changes[0], "words"), "mass: added (11.7 g)");
  EXPECT_TRUE(changes[0].find("before")->is_null());
  EXPECT_EQ(number(changed.json.find("kept")->list()->front(), "version"), 2);
  EXPECT_EQ(text(changed.json, "head").size(), 64U);
}

TEST_P(Kept, WhatIsRefusedKeepsNothing) {
  EXPECT_EQ(said([&] { (void)set("diameter=69 mm"); }).second, "That is what version 1 of tray light says already; nothing was kept.");
  EXPECT_EQ(said([&] { (void)set("diamter=70 mm"); }).second, "a tray has no \"diamter\"; did you mean \"diameter\"?");
  EXPECT_EQ(said([&] { (void)set("mass=11.7 g", 4); }).second, "There is no version 4 of tray light; the newest is 1.");
  EXPECT_EQ(said([&] { (void)set("mass=heavy"); }).first, ErrorWord::bad_file);
  EXPECT_EQ(newest(), 1);
}

TEST_P(Kept, ALockHoldsUntilItIsTakenAway) {
  set_lock(asked(), Noun::tray, "light", true, "proven");
  EXPECT_EQ(said([&] { (void)set("mass=11.7 g"); }).first, ErrorWord::not_allowed);
  EXPECT_EQ(text(show_kept(asked(), Noun::tray, "light").json, "locked_because"), "proven");
  EXPECT_TRUE(*list_kept(asked(), Noun::tray, {}).json.find("rows")->list()->front().find("locked")->truth());
  set_lock(asked(), Noun::tray, "light", false, "a new one came");
  EXPECT_NO_THROW((void)set("mass=11.7 g"));
  EXPECT_EQ(history_of_kept(asked(), Noun::lock, "tray-light").json.find("versions")->list()->size(), 2U);
}

TEST_P(Kept, ALockOfANameThatIsTheBeginningOfAnotherLocksThatOneAlone) {
  add_kept(asked(), Noun::tray, {{"light-2"}, {"material=alumina-fibre", "diameter=69 mm", "thickness=7.8 mm"}, ""});
  set_lock(asked(), Noun::tray, "light", true, "proven");
  const JsonList rows = *list_kept(asked(), Noun::tray, {}).json.find("rows")->list();
  ASSERT_EQ(rows.size(), 2U);
  for (const auto& row : rows) EXPECT_EQ(*row.find("locked")->truth(), text(row, "name") == "light") << text(row, "name");
}

TEST_P(Kept, AKeptMaterialGoesBeforeOneThatShips) {
  EXPECT_EQ(list_materials(asked(), 1).text.find("Kept in the lab's store"), std::string::npos);
  EXPECT_EQ(text(show_material(asked(), "glaze").json, "label"), "glaze or stain") << "none is kept: the one that ships";
  add_kept(asked(), Noun::material, {{"glaze"}, {"kind=powder", "family=glaze", "label=ours"}, ""});
  EXPECT_NE(show_material(asked(), "glaze").text.find("label = \"ours\""), std::string::npos);
  EXPECT_NE(list_materials(asked(), 1).text.find("\nKept in the lab's store:\nglaze@1  ours\n"), std::string::npos);
  EXPECT_EQ(said([&] { (void)show_material(asked(), "glase"); }).second, "No material \"glase\" is kept; did you mean \"glaze\"?");
}

HEATWORK_ON_EACH_ENGINE(Kept);

}  // namespace
}  // namespace heatwork::desk
