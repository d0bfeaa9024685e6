#include "furnace_care/due.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <tuple>

namespace heatwork::furnace_care {
namespace {

constexpr int quarter_days = 91;
// After which stop and in which air a furnace takes up water. Standing: assumed. source: chosen-here
constexpr int long_stop_days = 14;
constexpr double damp_percent = 70;

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
std::optional<DueItem> item_by_interval(const UpkeepInterval& interval, const std::optional<UpkeepDone>& last,
                                        const FurnaceHistory& history) {
  if (!last) return DueItem{{}, history.today, "Nothing that is kept tells that it was ever done.", interval.by, interval, {}, {}};
  const IntervalEnd end = end_of(interval, *last, history);
  if (end.day == INT32_MAX) return std::nullopt;
  return DueItem{{}, end.day, end.sentence, interval.by, interval, last, {}};
}

template <class Done, class Of>
std::optional<UpkeepDone> last_of(const Done& done, const Of& of) {
  const auto found = done.find(of);
  return found == done.end() ? std::nullopt : std::optional<UpkeepDone>(found->second);
}

/// Qualified anew as a whole on the day the oldest of its four works was last done.
std::optional<UpkeepDone> last_requalified(const FurnaceHistory& history) {
  std::optional<UpkeepDone> oldest;
  for (const Upkeep work : {Upkeep::temperature, Upkeep::vacuum, Upkeep::heating, Upkeep::chamber_map}) {
    const auto last = last_of(history.done, work);
    if (!last) return std::nullopt;
    if (!oldest || last->day < oldest->day) oldest = last;
  }
  return oldest;
}

void by_interval(DueList& list, const FurnaceHistory& history, Upkeep work, const UpkeepInterval& interval) {
  if (in_words(interval).empty()) return list.without_interval.push_back(work);
  const auto last = work == Upkeep::requalification ? last_requalified(history) : last_of(history.done, work);
  auto item = item_by_interval(interval, last, history);
  if (!item) return;
  item->work = work;
  list.items.push_back(*item);
}

/// A day that a check itself states goes before what an interval would say, but for one of the furnace maker that comes sooner.
void by_check(DueList& list, const FurnaceHistory& history, Upkeep work, const UpkeepDone& next) {
  const auto sooner = std::find_if(list.items.begin(), list.items.end(), [&](const DueItem& item) {
    return item.work == work && item.by == SetBy::furnace_maker && item.day <= next.day;
  });
  if (sooner != list.items.end()) return;
  std::erase_if(list.items, [&](const DueItem& item) { return item.work == work; });
  std::erase(list.without_interval, work);
  list.items.push_back(
      {work, next.day, fmt::format("Check {} states this day.", next.by), SetBy::lab, {}, last_of(history.done, work), {}});
}

void start_of_day(DueList& list, const FurnaceHistory& history, const UpkeepInterval& interval) {
  auto last = last_of(history.done, Upkeep::start_of_day);
  if (const auto fired = history.last_firing(); fired && (!last || *fired > last->day)) last = UpkeepDone{*fired, "a firing"};
  if (last && last->day + interval.every_days.value_or(1) > history.today) return;
  list.items.push_back(
      {Upkeep::start_of_day,
       history.today,
       "No firing was started today: look over chamber and seal, fire it warm, and see the vacuum reached, before the first.",
       interval.by,
       interval,
       {},
       {}});
}

bool came_after(const std::optional<UpkeepDone>& event, const std::map<Upkeep, UpkeepDone>& done, Upkeep work) {
  const auto found = done.find(work);
  return event && (found == done.end() || found->second.day < event->day);
}

/// After silver: cleaning at once, then a white tab.
void after_silver(DueList& list, const FurnaceHistory& history) {
  if (!history.silver) return;
  const std::string silver = fmt::format("Silver was in the chamber on {} ({})", day_text(history.silver->day), history.silver->by);
  if (came_after(history.silver, history.done, Upkeep::cleaning_firing)) {
    list.items.push_back({Upkeep::cleaning_firing,
                          history.silver->day,
                          silver + " and no cleaning firing since.",
                          SetBy::common_practice,
                          {},
                          history.silver,
                          {}});
  } else if (came_after(history.silver, history.done, Upkeep::white_tab)) {
    list.items.push_back({Upkeep::white_tab,
                          history.done.at(Upkeep::cleaning_firing).day,
                          silver + "; after the cleaning firing no white tab has shown yet that the chamber is clean.",
                          SetBy::common_practice,
                          {},
                          history.silver,
                          {}});
  }
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
                          {},
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
                        {},
                        history.repaired,
                        {}});
}

}  // namespace

int FurnaceHistory::firings_after(int day) const {
  if (const auto counted = counted_since.find(day); counted != counted_since.end()) return counted->second;
  return static_cast<int>(std::count_if(firing_days.begin(), firing_days.end(), [&](int each) { return each > day; }));
}

std::optional<int> FurnaceHistory::last_firing() const {
  const auto last = std::max_element(firing_days.begin(), firing_days.end());
  return last == firing_days.end() ? std::nullopt : std::optional(*last);
}

std::map<Upkeep, UpkeepInterval> intervals_of(const UpkeepSet& set, const FurnaceHistory& history) {
  auto intervals = usual_intervals(history.firings_after(history.today - quarter_days));
  for (const auto& [work, interval] : set.works) intervals[work] = interval;
  return intervals;
}

DueList due_of_furnace(const FurnaceHistory& history, const UpkeepSet& set) {
  DueList list;
  after_silver(list, history);
  dry_out(list, history);
  after_repair(list, history);
  const std::size_t by_events = list.items.size();
  const auto is_due_by_event = [&](Upkeep work) {
    return std::any_of(list.items.begin(), list.items.begin() + static_cast<std::ptrdiff_t>(by_events),
                       [&](const DueItem& item) { return item.work == work; });
  };
  for (const auto& [work, interval] : intervals_of(set, history)) {
    if (is_due_by_event(work)) continue;
    if (work == Upkeep::start_of_day)
      start_of_day(list, history, interval);
    else
      by_interval(list, history, work, interval);
  }
  for (const auto& [work, next] : history.next_by_check)
    if (!is_due_by_event(work)) by_check(list, history, work, next);
  for (DueItem& item : list.items) item.what = word(*item.work);
  for (const auto& [what, interval] : set.own)
    if (auto item = item_by_interval(interval, last_of(set.own_done, what), history)) {
      item->what = what;
      list.items.push_back(*item);
    }
  std::stable_sort(list.items.begin(), list.items.end(), [](const DueItem& one, const DueItem& other) {
    const auto order = [](const DueItem& item) { return item.work ? static_cast<std::size_t>(*item.work) : upkeep_works; };
    return std::tuple(one.day, order(one)) < std::tuple(other.day, order(other));
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
