#include "desk/lab/furnace_check_records.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "desk/demo.h"
#include "desk/errors.h"
#include "desk/lab/kept_show.h"
#include "desk/lab/take_in.h"
#include "desk/lab/told_in.h"
#include "records/store_for_tests.h"

namespace heatwork::desk {
namespace {

class FurnaceRecordTest : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    const std::string lab = (folder_ / "lab").string();
    write_demo(lab);
    asked_ = {address_.where, "mk"};
    (void)make_store(asked_);
    (void)take_in(asked_, lab, "");
  }

  AskedLab asked_;
};
HEATWORK_ON_EACH_ENGINE(FurnaceRecordTest);

std::string pump_table(double time_constant_s, double lowest_mbar) {
  std::string table = "time (s);pressure (mbar)\n";
  for (int t = 0; t <= 90; t += 3)
    table += fmt::format("{};{:.0f}\n", t, lowest_mbar + (985 - lowest_mbar) * std::exp(-t / time_constant_s));
  return table;
}

std::string run_table(double power) {
  std::string table = "time (s);temperature (°C)\n";
  double T = 24;
  for (int i = 0; i < 6000 && T < 900; ++i) {
    if (i % 50 == 0) table += fmt::format("{};{:.0f}\n", i / 10, T);
    T += 0.1 * (3.41 * power - 0.00161 * (T - 22));
  }
  return table;
}

const std::string& text_at(const Json& json, std::string_view key) {
  return *json.find(key)->text();
}

TEST_P(FurnaceRecordTest, AVacuumIsCheckedFromATableAndKeptOnlyWhereAsked) {
  VacuumCheckWords words;
  words.furnace = "window";
  words.pump_down.table = pump_table(7, 35);
  const CareAnswer looked = check_vacuum(asked_, words);
  EXPECT_FALSE(looked.wrong);
  EXPECT_EQ(text_at(looked.json, "level"), "good");
  EXPECT_EQ(*looked.json.find("kept")->truth(), false);
  EXPECT_NE(text_at(told_in(trade::Language::german, looked.json), "sentence").find("Die Pumpe arbeitet wie bisher"), std::string::npos);
  words.keep = true;
  words.name = "pump-1";
  words.pump_down.table = pump_table(12, 35);
  const CareAnswer kept = check_vacuum(asked_, words);
  EXPECT_TRUE(kept.wrong);
  EXPECT_EQ(text_at(kept.json, "verdict"), "weak pump");
  const CareAnswer shown = show_kept(asked_, trade::Noun::check, "pump-1");
  EXPECT_NE(text_at(shown.json, "text").find("pump_time_constant = "), std::string::npos);
}

TEST_P(FurnaceRecordTest, AHeatingIsCheckedAndItsFiguresAreKept) {
  HeatingCheckWords words;
  words.furnace = "window";
  words.answers = {{"heating_run.mains", "230 V"}, {"heating_run.room", "22 °C"}};
  words.run.table = run_table(1);
  words.keep = true;
  words.name = "run-1";
  const CareAnswer sound = check_heating(asked_, words);
  EXPECT_FALSE(sound.wrong);
  EXPECT_EQ(text_at(sound.json, "verdict"), "heats as it did");
  const CareAnswer shown = show_kept(asked_, trade::Noun::check, "run-1");
  for (const char* key : {"\ngain = ", "\ngain_sd = ", "\nloss = ", "\nloss_sd = "})
    EXPECT_NE(text_at(shown.json, "text").find(key), std::string::npos) << key;
  words.keep = false;
  words.name.clear();
  words.run.table = run_table(0.78);
  const CareAnswer worn = check_heating(asked_, words);
  EXPECT_TRUE(worn.wrong);
  EXPECT_EQ(text_at(worn.json, "verdict"), "element worn");
}

TEST_P(FurnaceRecordTest, ARecordOfAnotherFurnaceKeepsNothing) {
  VacuumCheckWords words;
  words.furnace = "window";
  words.keep = true;
  words.name = "pump-2";
  words.pump_down.table = "time (s),pressure (mbar),furnace\n0,985,corner\n3,700,corner\n";
  EXPECT_THROW((void)check_vacuum(asked_, words), Failure);
  EXPECT_THROW((void)show_kept(asked_, trade::Noun::check, "pump-2"), Failure);
}

}  // namespace
}  // namespace heatwork::desk
