#include "furnace_care/due.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "trade/sentences.h"

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
  EXPECT_EQ(in_words(*item(list, Upkeep::temperature)->interval), "every 30 days or after 100 firings");
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

UpkeepInterval every(int days, SetBy by) {
  UpkeepInterval interval;
  interval.every_days = days;
  interval.by = by;
  return interval;
}

TEST(Due, WhatFurnaceOrLabSetGoesFirst) {
  UpkeepInterval muffle;
  muffle.after_hours = 800;
  muffle.by = SetBy::furnace_maker;
  muffle.stated_in = "instructions for use, page 31";
  muffle.person = "mara";
  FurnaceHistory history = looked_after();
  history.done[Upkeep::muffle] = {today - 400, "being put into service"};
  history.hours_a_firing = 3;  // 273 firings are 819 h
  UpkeepSet set;
  set.take("muffle", muffle);
  set.take("temperature check", every(14, SetBy::lab));
  const DueList list = due_of_furnace(history, set);
  EXPECT_TRUE(list.without_interval.empty());
  EXPECT_EQ(item(list, Upkeep::muffle)->day, today);
  EXPECT_EQ(item(list, Upkeep::muffle)->sentence, "Last done on 2025-10-21 by being put into service, about 819 h of firings ago.");
  EXPECT_EQ(in_words(*item(list, Upkeep::muffle)->interval), "after 800 h of firings");
  EXPECT_EQ(who_says(*item(list, Upkeep::muffle)->interval), "furnace maker's instruction, instructions for use, page 31; set by mara");
  EXPECT_EQ(item(list, Upkeep::temperature)->day, today + 11);
  history.counted_since[today - 400] = 260;
  EXPECT_EQ(item(due_of_furnace(history, set), Upkeep::muffle)->day, today + 3) << "780 h of 800, 9 h a day";
}

TEST(Due, TheFurnaceMakersWordGoesBeforeTheLabsWhicheverIsTakenFirst) {
  const UpkeepInterval maker = every(60, SetBy::furnace_maker), here = every(20, SetBy::lab), all = every(10, SetBy::lab_for_all);
  const auto decides = [](std::vector<UpkeepInterval> order) {
    UpkeepSet set;
    for (const UpkeepInterval& each : order) set.take("vacuum test", each);
    return set.works.at(Upkeep::vacuum).every_days;
  };
  EXPECT_EQ(decides({all, here, maker}), 60);
  EXPECT_EQ(decides({maker, here, all}), 60);
  EXPECT_EQ(decides({all, here}), 20);
  EXPECT_EQ(decides({all}), 10);
}

TEST(Due, ADayACheckStatesStandsUnlessTheFurnaceMakersComesSooner) {
  FurnaceHistory history = looked_after();
  history.next_by_check[Upkeep::temperature] = UpkeepDone{today + 20, "corner-november"};
  EXPECT_EQ(item(due_of_furnace(history, {}), Upkeep::temperature)->sentence, "Check corner-november states this day.");
  UpkeepSet set;
  set.take("temperature check", every(14, SetBy::furnace_maker));
  EXPECT_EQ(item(due_of_furnace(history, set), Upkeep::temperature)->day, today + 11);
  set = {};
  set.take("temperature check", every(90, SetBy::furnace_maker));
  EXPECT_EQ(item(due_of_furnace(history, set), Upkeep::temperature)->day, today + 20);
}

TEST(Due, WorksOfEventsComeRoundToo) {
  FurnaceHistory history = looked_after();
  EXPECT_FALSE(item(due_of_furnace(history, {}), Upkeep::requalification));
  history.done[Upkeep::heating].day = today - 300;
  UpkeepSet set;
  set.take("requalification", every(365, SetBy::lab));
  set.take("dry-out firing", every(30, SetBy::lab));
  set.take("white tab", every(90, SetBy::lab));
  set.take("start of the day", every(2, SetBy::lab));
  const DueList list = due_of_furnace(history, set);
  EXPECT_EQ(item(list, Upkeep::requalification)->day, today + 65) << "a year after the oldest of its four works";
  EXPECT_EQ(item(list, Upkeep::dry_out)->day, today + 27);
  EXPECT_EQ(item(list, Upkeep::white_tab)->day, today + 87);
  fire(history, 3, today - 1);
  EXPECT_FALSE(item(due_of_furnace(history, set), Upkeep::start_of_day));
  EXPECT_TRUE(item(due_of_furnace(history, {}), Upkeep::start_of_day));
}

TEST(Due, WorksOfTheLabsOwnStandAmongTheRest) {
  UpkeepSet set;
  set.take("wipe the door", every(10, SetBy::lab));
  DueList list = due_of_furnace(looked_after(), set);
  const auto own = [&] { return std::find_if(list.items.begin(), list.items.end(), [](const auto& each) { return !each.work; }); };
  EXPECT_EQ(own()->day, today);
  EXPECT_EQ(own()->what, "wipe the door");
  EXPECT_EQ(own()->sentence, "Nothing that is kept tells that it was ever done.");
  set.own_done["wipe the door"] = {today - 4, "mara, marked by hand"};
  list = due_of_furnace(looked_after(), set);
  EXPECT_EQ(own()->day, today + 6);
  EXPECT_EQ(own()->sentence, "Last done on 2026-11-21 by mara, marked by hand.");
}

TEST(Due, WordsOfWorksReadBack) {
  for (std::size_t work = 0; work < upkeep_works; ++work) EXPECT_EQ(upkeep_of(word(static_cast<Upkeep>(work))), static_cast<Upkeep>(work));
  EXPECT_FALSE(upkeep_of("Muffle"));
  EXPECT_TRUE(is_done_by_check(Upkeep::vacuum));
  EXPECT_FALSE(is_done_by_check(Upkeep::pump));
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
  for (const DueItem& each : list.items) EXPECT_GE(each.day, today) << each.what;
}

TEST(Due, DaysReadBack) {
  EXPECT_EQ(day_text(*day_number("2028-02-29")), "2028-02-29");
  for (const char* none : {"2027-02-29", "2026-13-01", "26-01-01", "2026/01/01", "2026-0x-01"}) EXPECT_FALSE(day_number(none)) << none;
}

TEST(Due, WhoDidAWorkIsSaidInGermanToo) {
  const auto german = [](const char* english) { return trade::in_language(english, trade::Language::german); };
  EXPECT_EQ(german("Last done on 2026-08-10 by check w8."), "Zuletzt am 2026-08-10 getan (Prüfung w8).");
  EXPECT_EQ(german("Last done on 2026-08-10 by mara, marked by hand, 60 firings ago."),
            "Zuletzt am 2026-08-10 getan (mara, von Hand vermerkt), vor 60 Bränden.");
  EXPECT_EQ(german("After muffle exchanged on 2026-08-10 still wanted: vacuum test and chamber map."),
            "Nach \"Muffel getauscht\" am 2026-08-10 noch nötig: Vakuumprüfung und Brennkammer-Karte.");
  EXPECT_EQ(german("After a new hinge on 2026-08-10 still wanted: vacuum test."),
            "Nach \"a new hinge\" am 2026-08-10 noch nötig: vacuum test.")
      << "what a person wrote stays as it was written";
}

}  // namespace
}  // namespace heatwork::furnace_care
