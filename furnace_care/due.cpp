#include "furnace_care/due.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <tuple>

namespace heatwork::furnace_care {
namespace {

constexpr std::array<std::string_view, 12> words = {"start of the day", "weekly look",    "temperature check", "vacuum test",
                                                    "full-power run",   "chamber map",    "requalification",   "cleaning firing",
                                                    "white tab",        "dry-out firing", "pump service",      "muffle"};

// From how many firings a quarter on a furnace counts as much used, and after which stop and in which air it takes up water.
// Standing: common practice (cleaning three to six months by use), assumed (the numbers). source: chosen-here
constexpr int much_used_firings = 300;
constexpr int often_days = 91, seldom_days = 182, quarter_days = 91;
constexpr int long_stop_days = 14;
constexpr double damp_percent = 70;

std::string interval_in_words(const UpkeepInterval& interval) {
  std::string text;
  const auto also = [&](const std::string& part) { text += (text.empty() ? "" : " or ") + part; };
  if (interval.every_days) also(*interval.every_days == 1 ? "every day" : fmt::format("every {} days", *interval.every_days));
  if (interval.after_firings) also(fmt::format("after {} firings", *interval.after_firings));
  if (interval.after_hours) also(fmt::format("after {:g} h of firings", *interval.after_hours));
  return text;
}

/// When an interval is over after the last time, and why: by days, or by how fast firings come.
struct IntervalEnd {
  int day;
  std::string sentence;
};

IntervalEnd end_of(const UpkeepInterval& interval, const UpkeepDone& last, const FurnaceHistory& history) {
  IntervalEnd end{INT32_MAX, ""};
  const auto sooner = [&](int day, std::string sentence) {
    if (day < end.day) end = {day, std::move(sentence)};
  };
  const std::string done = fmt::format("Last done on {} by {}", day_text(last.day), last.by);
  if (interval.every_days) sooner(last.day + *interval.every_days, fmt::format("{}.", done));
  const double a_day = history.firings_after(history.today - quarter_days) / static_cast<double>(quarter_days);
  const int since = history.firings_after(last.day);
  // What is not reached yet falls on the day it will be, as firings go on; not told beyond a year.
  const auto at_use = [&](double used, double allowed, double use_a_day, const std::string& sentence) {
    if (used >= allowed) return sooner(history.today, sentence);
    const double days = use_a_day > 0 ? std::ceil((allowed - used) / use_a_day) : HUGE_VAL;
    if (days <= 365) sooner(history.today + static_cast<int>(days), sentence);
  };
  if (interval.after_firings) at_use(since, *interval.after_firings, a_day, fmt::format("{}, {} firings ago.", done, since));
  if (interval.after_hours && history.hours_a_firing)
    at_use(since * *history.hours_a_firing, *interval.after_hours, a_day * *history.hours_a_firing,
           fmt::format("{}, about {:.0f} h of firings ago.", done, since * *history.hours_a_firing));
  return end;
}

/// A work that comes round by its interval; nothing where neither days nor use tell when.
std::optional<DueItem> item_by_interval(Upkeep work, const UpkeepInterval& interval, std::optional<UpkeepDone> last,
                                        const FurnaceHistory& history) {
  if (interval.done_day && (!last || *interval.done_day > last->day)) last = UpkeepDone{*interval.done_day, "hand, as its file says"};
  const std::string words_of_interval = interval_in_words(interval);
  if (!last)
    return DueItem{work, history.today, "Nothing that is kept tells that it was ever done.", interval.by, words_of_interval, {}, {}};
  const IntervalEnd end = end_of(interval, *last, history);
  if (end.day == INT32_MAX) return std::nullopt;
  return DueItem{work, end.day, end.sentence, interval.by, words_of_interval, last, {}};
}

void by_interval(DueList& list, const FurnaceHistory& history, Upkeep work, const UpkeepInterval& interval) {
  if (interval_in_words(interval).empty()) return list.without_interval.push_back(work);
  const auto found = history.done.find(work);
  const auto item = item_by_interval(work, interval, found == history.done.end() ? std::nullopt : std::optional(found->second), history);
  if (item) list.items.push_back(*item);
}

/// A day that a check itself states goes before what an interval would say.
bool by_check(DueList& list, const FurnaceHistory& history, Upkeep work) {
  const auto found = history.next_by_check.find(work);
  if (found == history.next_by_check.end()) return false;
  const auto done = history.done.find(work);
  list.items.push_back({work,
                        found->second.day,
                        fmt::format("Check {} states this day.", found->second.by),
                        SetBy::lab,
                        "",
                        done == history.done.end() ? std::nullopt : std::optional(done->second),
                        {}});
  return true;
}

void start_of_day(DueList& list, const FurnaceHistory& history, const UpkeepInterval& interval) {
  if (const auto last = history.last_firing(); last && *last >= history.today) return;
  list.items.push_back(
      {Upkeep::start_of_day,
       history.today,
       "No firing was started today: look over chamber and seal, fire it warm, and see the vacuum reached, before the first.",
       interval.by,
       interval_in_words(interval),
       {},
       {}});
}

bool came_after(const std::optional<UpkeepDone>& event, const std::map<Upkeep, UpkeepDone>& done, Upkeep work) {
  const auto found = done.find(work);
  return event && (found == done.end() || found->second.day < event->day);
}

/// After silver: cleaning at once, then a white tab; returns whether the cleaning is due by it.
bool after_silver(DueList& list, const FurnaceHistory& history) {
  if (!history.silver) return false;
  const std::string silver = fmt::format("Silver was in the chamber on {} ({})", day_text(history.silver->day), history.silver->by);
  if (came_after(history.silver, history.done, Upkeep::cleaning_firing)) {
    list.items.push_back({Upkeep::cleaning_firing,
                          history.silver->day,
                          silver + " and no cleaning firing since.",
                          SetBy::common_practice,
                          "",
                          history.silver,
                          {}});
    return true;
  }
  if (came_after(history.silver, history.done, Upkeep::white_tab))
    list.items.push_back({Upkeep::white_tab,
                          history.done.at(Upkeep::cleaning_firing).day,
                          silver + "; after the cleaning firing no white tab has shown yet that the chamber is clean.",
                          SetBy::common_practice,
                          "",
                          history.silver,
                          {}});
  return false;
}

/// In damp weather, after a long stop, or where the vacuum check found water.
void dry_out(DueList& list, const FurnaceHistory& history) {
  const auto dried = history.done.find(Upkeep::dry_out);
  const auto since = [&](int day) { return dried == history.done.end() || dried->second.day < day; };
  const std::optional<int> last_firing = history.last_firing();
  std::string why;
  if (!history.water_found_by.empty() && history.done.contains(Upkeep::vacuum) && since(history.done.at(Upkeep::vacuum).day)) {
    why = fmt::format("Check {} found water in the chamber.", history.water_found_by);
  } else if (last_firing && history.today - *last_firing > long_stop_days && since(*last_firing)) {
    why = fmt::format("No firing since {}: the lining takes up water.", day_text(*last_firing));
  } else if (history.room_humidity_percent && *history.room_humidity_percent >= damp_percent && last_firing && since(*last_firing)) {
    why = fmt::format("The air was damp at the last firing ({:.0f} %).", *history.room_humidity_percent);
  }
  if (!why.empty())
    list.items.push_back({Upkeep::dry_out,
                          history.today,
                          why,
                          SetBy::common_practice,
                          "",
                          dried == history.done.end() ? std::nullopt : std::optional(dried->second),
                          {}});
}

void after_repair(DueList& list, const FurnaceHistory& history) {
  if (!history.repaired || history.missing_since_repair.empty()) return;
  std::string missing;
  for (const Upkeep work : history.missing_since_repair) missing += (missing.empty() ? "" : " and ") + std::string(word(work));
  list.items.push_back({Upkeep::requalification,
                        history.repaired->day,
                        fmt::format("After {} on {} still wanted: {}.", history.repaired_what, day_text(history.repaired->day), missing),
                        SetBy::common_practice,
                        "",
                        history.repaired,
                        {}});
}

}  // namespace

std::string_view word(Upkeep work) {
  return words.at(static_cast<std::size_t>(work));
}

std::string_view word(SetBy by) {
  constexpr std::array<std::string_view, 4> whose = {"furnace maker's instruction", "the lab", "common practice", "assumed"};
  return whose.at(static_cast<std::size_t>(by));
}

std::map<Upkeep, UpkeepInterval> usual_intervals(int firings_last_quarter) {
  const bool much_used = firings_last_quarter >= much_used_firings;
  const auto every = [](int days, SetBy by, std::optional<int> firings = std::nullopt) {
    return UpkeepInterval{days, firings, std::nullopt, by, std::nullopt};
  };
  return {{Upkeep::start_of_day, every(1, SetBy::common_practice)},
          {Upkeep::weekly_look, every(7, SetBy::common_practice)},
          {Upkeep::temperature, every(30, SetBy::common_practice, 100)},
          {Upkeep::vacuum, every(30, SetBy::common_practice)},
          {Upkeep::heating, every(often_days, SetBy::common_practice)},
          {Upkeep::chamber_map, every(365, SetBy::assumed)},
          {Upkeep::cleaning_firing, every(much_used ? often_days : seldom_days, SetBy::common_practice)},
          {Upkeep::pump, every(365, SetBy::assumed)},
          {Upkeep::muffle, UpkeepInterval{}}};
}

int FurnaceHistory::firings_after(int day) const {
  return static_cast<int>(std::count_if(firing_days.begin(), firing_days.end(), [&](int each) { return each > day; }));
}

std::optional<int> FurnaceHistory::last_firing() const {
  const auto last = std::max_element(firing_days.begin(), firing_days.end());
  return last == firing_days.end() ? std::nullopt : std::optional(*last);
}

DueList due_of_furnace(const FurnaceHistory& history, const std::map<Upkeep, UpkeepInterval>& set) {
  auto intervals = usual_intervals(history.firings_after(history.today - quarter_days));
  for (const auto& [work, interval] : set) intervals[work] = interval;
  DueList list;
  const bool cleaning_by_silver = after_silver(list, history);
  dry_out(list, history);
  after_repair(list, history);
  for (const auto& [work, interval] : intervals) {
    if (work == Upkeep::start_of_day) {
      start_of_day(list, history, interval);
    } else if (!(work == Upkeep::cleaning_firing && cleaning_by_silver) && !by_check(list, history, work)) {
      by_interval(list, history, work, interval);
    }
  }
  for (DueItem& item : list.items) item.what = word(item.work);
  std::stable_sort(list.items.begin(), list.items.end(), [](const DueItem& one, const DueItem& other) {
    return std::tuple(one.day, one.work) < std::tuple(other.day, other.work);
  });
  return list;
}

std::string day_text(int day) {
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::optional<int> day_number(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto part = [&](std::size_t from, std::size_t length) {
    int value = 0;
    for (const char digit : text.substr(from, length)) value = digit >= '0' && digit <= '9' && value >= 0 ? 10 * value + (digit - '0') : -1;
    return value;
  };
  const std::chrono::year_month_day date{std::chrono::year{part(0, 4)}, std::chrono::month{static_cast<unsigned>(part(5, 2))},
                                         std::chrono::day{static_cast<unsigned>(part(8, 2))}};
  if (!date.ok()) return std::nullopt;
  return static_cast<int>(std::chrono::sys_days{date}.time_since_epoch().count());
}

}  // namespace heatwork::furnace_care
