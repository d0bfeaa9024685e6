#include "furnace_care/upkeep.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace heatwork::furnace_care {
namespace {

constexpr std::array<std::string_view, upkeep_works> words = {"start of the day", "weekly look",    "temperature check", "vacuum test",
                                                              "full-power run",   "chamber map",    "requalification",   "cleaning firing",
                                                              "white tab",        "dry-out firing", "pump service",      "muffle"};

// From how many firings a quarter on a furnace counts as much used.
// Standing: common practice (cleaning three to six months by use), assumed (the numbers). source: chosen-here
constexpr int much_used_firings = 300;
constexpr int often_days = 91, seldom_days = 182;

}  // namespace

std::string_view word(Upkeep work) {
  return words.at(static_cast<std::size_t>(work));
}

std::optional<Upkeep> upkeep_of(std::string_view word) {
  const auto found = std::find(words.begin(), words.end(), word);
  return found == words.end() ? std::nullopt : std::optional(static_cast<Upkeep>(found - words.begin()));
}

bool is_done_by_check(Upkeep work) {
  return work >= Upkeep::temperature && work <= Upkeep::requalification;
}

std::string_view called_for_by(Upkeep work) {
  switch (work) {
    case Upkeep::requalification:
      return "After a repair, another sensor, muffle, place or mains.";
    case Upkeep::cleaning_firing:
      return "Also after silver.";
    case Upkeep::white_tab:
      return "After silver and the cleaning firing.";
    case Upkeep::dry_out:
      return "After a long stop, in damp air, or where water was found.";
    default:
      return "";
  }
}

std::string_view word(SetBy by) {
  constexpr std::array<std::string_view, 6> whose = {
      "its certificate", "furnace maker's instruction", "the lab", "the lab, for every furnace", "common practice", "assumed"};
  return whose.at(static_cast<std::size_t>(by));
}

std::string in_words(const UpkeepInterval& interval) {
  std::string text;
  const auto also = [&](const std::string& part) { text += (text.empty() ? "" : " or ") + part; };
  if (interval.every_days) also(*interval.every_days == 1 ? "every day" : fmt::format("every {} days", *interval.every_days));
  if (interval.after_firings) also(fmt::format("after {} firings", *interval.after_firings));
  if (interval.after_hours) also(fmt::format("after {:g} h of firings", *interval.after_hours));
  return text;
}

std::string who_says(const UpkeepInterval& interval) {
  std::string text(word(interval.by));
  if (!interval.stated_in.empty()) text += fmt::format(", {}", interval.stated_in);
  if (!interval.person.empty()) text += fmt::format("; set by {}", interval.person);
  return text;
}

void UpkeepSet::take(const std::string& what, const UpkeepInterval& interval) {
  const auto unless_one_goes_before = [&](auto& all, const auto& of) {
    const auto stands = all.find(of);
    if (stands == all.end() || interval.by < stands->second.by) all[of] = interval;
  };
  if (const auto work = upkeep_of(what))
    unless_one_goes_before(works, *work);
  else
    unless_one_goes_before(own, what);
}

std::map<Upkeep, UpkeepInterval> usual_intervals(int firings_last_quarter) {
  const bool much_used = firings_last_quarter >= much_used_firings;
  const auto every = [](int days, SetBy by, std::optional<int> firings = std::nullopt) {
    return UpkeepInterval{days, firings, std::nullopt, by, {}, {}};
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

}  // namespace heatwork::furnace_care
