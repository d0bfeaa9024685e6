#include "furnace_care/due.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace heatwork::furnace_care {
namespace {

const int today = *day_number("2026-11-25");

/// So many firings every day of the last quarter, today among them.
void fire(FurnaceHistory& history, int a_day, int until = today) {
  history.firing_days.clear();
  for (int day = until - 90; day <= until; ++day)
    history.firing_days.insert(history.firing_days.end(), static_cast<std::size_t>(a_day), day);
}

/// A furnace in which all was done this month, used every day.
FurnaceHistory looked_after() {
  FurnaceHistory history;
  history.today = today;
  for (int work = 0; work <= static_cast<int>(Upkeep::muffle); ++work)
    history.done[static_cast<Upkeep>(work)] = {today - 3, "check corner-november"};
  fire(history, 3);
  return history;
}

std::optional<DueItem> item(const DueList& list, Upkeep work) {
  const auto found = std::find_if(list.items.begin(), list.items.end(), [&](const DueItem& each) { return each.work == work; });
  return found == list.items.end() ? std::nullopt : std::optional(*found);
}

TEST(Due, EachWorkComesRoundByItsInterval) {
  const DueList list = due_of_furnace(looked_after(), {});
  EXPECT_EQ(item(list, Upkeep::weekly_look)->day, today + 4);
  EXPECT_EQ(item(list, Upkeep::temperature)->day, today + 27);
  EXPECT_EQ(item(list, Upkeep::temperature)->interval, "every 30 days or after 100 firings");
  EXPECT_EQ(item(list, Upkeep::temperature)->sentence, "Last done on 2026-11-22 by check corner-november.");
  EXPECT_EQ(item(list, Upkeep::cleaning_firing)->day, today + 179);
  EXPECT_FALSE(item(list, Upkeep::start_of_day)) << "a firing was started today";
  EXPECT_FALSE(item(list, Upkeep::dry_out));
  EXPECT_EQ(list.without_interval, std::vector<Upkeep>{Upkeep::muffle});
  EXPECT_TRUE(std::is_sorted(list.items.begin(), list.items.end(), [](const auto& a, const auto& b) { return a.day < b.day; }));
}

TEST(Due, ByUseSoonerThanByDays) {
  FurnaceHistory history = looked_after();
  fire(history, 10);
  history.done[Upkeep::temperature].day = today - 6;
  const DueList list = due_of_furnace(history, {});
  EXPECT_EQ(item(list, Upkeep::temperature)->day, today + 4);
  EXPECT_EQ(item(list, Upkeep::temperature)->sentence, "Last done on 2026-11-19 by check corner-november, 60 firings ago.");
  EXPECT_EQ(item(list, Upkeep::cleaning_firing)->day, today - 3 + 91) << "a furnace much used is cleaned more often";
  history.done[Upkeep::temperature].day = today - 13;
  EXPECT_EQ(item(due_of_furnace(history, {}), Upkeep::temperature)->day, today);
}

TEST(Due, WhatFurnaceOrLabSetGoesFirst) {
  UpkeepInterval muffle;
  muffle.after_hours = 800;
  muffle.by = SetBy::furnace_maker;
  FurnaceHistory history = looked_after();
  muffle.done_day = today - 400;
  history.done.erase(Upkeep::muffle);
  history.hours_a_firing = 3;  // 273 firings are 819 h
  const DueList list = due_of_furnace(history, {{Upkeep::muffle, muffle}, {Upkeep::temperature, {14, {}, {}, SetBy::lab, {}}}});
  EXPECT_TRUE(list.without_interval.empty());
  EXPECT_EQ(item(list, Upkeep::muffle)->day, today);
  EXPECT_EQ(item(list, Upkeep::muffle)->by, SetBy::furnace_maker);
  EXPECT_EQ(item(list, Upkeep::muffle)->interval, "after 800 h of firings");
  EXPECT_EQ(item(list, Upkeep::temperature)->day, today + 11);
  history.next_by_check[Upkeep::temperature] = UpkeepDone{today + 2, "corner-november"};
  EXPECT_EQ(item(due_of_furnace(history, {}), Upkeep::temperature)->sentence, "Check corner-november states this day.");
}

TEST(Due, AfterSilverCleaningThenAWhiteTab) {
  FurnaceHistory history = looked_after();
  history.silver = UpkeepDone{today - 1, "check corner-silver"};
  const DueList silver = due_of_furnace(history, {});
  EXPECT_EQ(item(silver, Upkeep::cleaning_firing)->day, today - 1);
  EXPECT_EQ(item(silver, Upkeep::cleaning_firing)->sentence,
            "Silver was in the chamber on 2026-11-24 (check corner-silver) and no cleaning firing since.");
  EXPECT_EQ(std::count_if(silver.items.begin(), silver.items.end(), [](const auto& each) { return each.work == Upkeep::cleaning_firing; }),
            1);
  history.done[Upkeep::cleaning_firing] = {today, "firing clean-7"};
  const DueList cleaned = due_of_furnace(history, {});
  EXPECT_EQ(item(cleaned, Upkeep::white_tab)->day, today);
  history.done[Upkeep::white_tab] = {today, "check corner-white"};
  EXPECT_FALSE(item(due_of_furnace(history, {}), Upkeep::white_tab));
}

TEST(Due, DryOutAfterALongStopInDampAirAndWhereWaterWasFound) {
  FurnaceHistory stopped = looked_after();
  fire(stopped, 3, today - 20);
  stopped.done.erase(Upkeep::dry_out);
  EXPECT_EQ(item(due_of_furnace(stopped, {}), Upkeep::dry_out)->sentence, "No firing since 2026-11-05: the lining takes up water.");
  FurnaceHistory damp = looked_after();
  damp.room_humidity_percent = 78;
  EXPECT_EQ(item(due_of_furnace(damp, {}), Upkeep::dry_out)->sentence, "The air was damp at the last firing (78 %).");
  FurnaceHistory wet = looked_after();
  wet.water_found_by = "corner-vacuum";
  wet.done[Upkeep::dry_out].day = today - 9;
  EXPECT_EQ(item(due_of_furnace(wet, {}), Upkeep::dry_out)->sentence, "Check corner-vacuum found water in the chamber.");
  wet.done[Upkeep::dry_out].day = today;
  EXPECT_FALSE(item(due_of_furnace(wet, {}), Upkeep::dry_out));
}

TEST(Due, AfterARepairAndAtTheStartOfADay) {
  FurnaceHistory history = looked_after();
  history.repaired = UpkeepDone{today - 2, "check corner-muffle"};
  history.repaired_what = "new muffle";
  history.missing_since_repair = {Upkeep::vacuum, Upkeep::chamber_map};
  fire(history, 3, today - 1);
  const DueList list = due_of_furnace(history, {});
  EXPECT_EQ(item(list, Upkeep::requalification)->sentence, "After new muffle on 2026-11-23 still wanted: vacuum test and chamber map.");
  EXPECT_TRUE(item(list, Upkeep::start_of_day));
}

TEST(Due, AFurnaceOfWhichNothingIsKeptIsDueToday) {
  FurnaceHistory history;
  history.today = today;
  const DueList list = due_of_furnace(history, {});
  EXPECT_EQ(item(list, Upkeep::temperature)->day, today);
  EXPECT_EQ(item(list, Upkeep::temperature)->sentence, "Nothing that is kept tells that it was ever done.");
  for (const DueItem& each : list.items) EXPECT_GE(each.day, today) << word(each.work);
}

TEST(Due, DaysReadBack) {
  EXPECT_EQ(day_text(*day_number("2028-02-29")), "2028-02-29");
  for (const char* none : {"2027-02-29", "2026-13-01", "26-01-01", "2026/01/01", "2026-0x-01"}) EXPECT_FALSE(day_number(none)) << none;
}

}  // namespace
}  // namespace heatwork::furnace_care
