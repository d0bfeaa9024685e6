// What is due for a furnace: each work with its day, its reason, and who says how often.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace heatwork::furnace_care {

enum class Upkeep {
  start_of_day,
  weekly_look,
  temperature,
  vacuum,
  heating,
  chamber_map,
  requalification,
  cleaning_firing,
  white_tab,
  dry_out,
  pump,
  muffle
};

/// "temperature check", as files and lists name it.
std::string_view word(Upkeep work);

/// Whose word an interval is; the earlier goes before the later.
enum class SetBy { furnace_maker, lab, common_practice, assumed };
std::string_view word(SetBy by);

/// How often a work is due: whichever of these comes first.
struct UpkeepInterval {
  std::optional<int> every_days;
  std::optional<int> after_firings;
  std::optional<double> after_hours;  ///< of firings
  SetBy by = SetBy::assumed;
  std::optional<int> done_day;  ///< stated by hand, where no record tells
};

/// What a record tells of a work.
struct UpkeepDone {
  int day = 0;     ///< days since 1970-01-01, in the zone of the lab
  std::string by;  ///< "check corner-autumn", "firing clean-3"
};

/// Everything about one furnace that decides what is due.
struct FurnaceHistory {
  int today = 0;
  std::map<Upkeep, UpkeepDone> done;
  std::map<Upkeep, UpkeepDone> next_by_check;  ///< the day a check itself states, and its name
  std::vector<int> firing_days;                ///< of every firing started, in any order
  std::optional<double> hours_a_firing;        ///< on average
  std::optional<UpkeepDone> silver;            ///< last silver or silver alloy in the chamber
  std::optional<UpkeepDone> repaired;          ///< last repair, exchange or change of place or mains
  std::string repaired_what;
  std::vector<Upkeep> missing_since_repair;     ///< of temperature, vacuum, heating, chamber map
  std::string water_found_by;                   ///< the newest vacuum check, where it found water
  std::optional<double> room_humidity_percent;  ///< at the last firing

  [[nodiscard]] int firings_after(int day) const;
  [[nodiscard]] std::optional<int> last_firing() const;
};

struct DueItem {
  Upkeep work{};  ///< of a day stated by hand: see what
  int day = 0;
  std::string sentence;  ///< why
  SetBy by = SetBy::assumed;
  std::string interval;  ///< "every 30 days or after 100 firings"; empty: no interval decides
  std::optional<UpkeepDone> last;
  std::string what;  ///< "temperature check"
};

struct DueList {
  std::vector<DueItem> items;            ///< by day, then in the order of the works
  std::vector<Upkeep> without_interval;  ///< nobody says how often: the furnace maker's instruction must
};

/// Intervals that ship, for those that neither furnace nor lab sets. Standing of each with it.
std::map<Upkeep, UpkeepInterval> usual_intervals(int firings_last_quarter);

/// `set`: what furnace and lab say, which goes before what ships.
DueList due_of_furnace(const FurnaceHistory& history, const std::map<Upkeep, UpkeepInterval>& set);

/// "2026-11-25" of a day number, and back; nothing where it is none.
std::string day_text(int day);
std::optional<int> day_number(std::string_view text);

}  // namespace heatwork::furnace_care
