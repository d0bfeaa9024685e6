// What is due for a furnace: each work with its day, its reason, and who says how often.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "furnace_care/upkeep.h"

namespace heatwork::furnace_care {

/// Everything about one furnace that decides what is due.
struct FurnaceHistory {
  int today = 0;
  std::map<Upkeep, UpkeepDone> done;
  std::map<Upkeep, UpkeepDone> next_by_check;  ///< the day a check itself states, and its name
  std::vector<int> firing_days;                ///< of the firings started in the last year, in any order
  std::map<int, int> counted_since;            ///< all firings started after a day, where these days do not reach back to it
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
  std::optional<Upkeep> work;  ///< none: of the lab's own, or a day stated by hand
  int day = 0;
  std::string sentence;  ///< why
  SetBy by = SetBy::assumed;
  std::optional<UpkeepInterval> interval;  ///< that decides; none: an event, or a day that was stated
  std::optional<UpkeepDone> last;
  std::string what;  ///< "temperature check"
};

struct DueList {
  std::vector<DueItem> items;            ///< by day, then in the order of the works
  std::vector<Upkeep> without_interval;  ///< nobody says how often: the furnace maker's instruction must
};

/// How often each work is due: what furnace and lab set, else what ships.
std::map<Upkeep, UpkeepInterval> intervals_of(const UpkeepSet& set, const FurnaceHistory& history);

/// `set`: what furnace and lab say, which goes before what ships.
DueList due_of_furnace(const FurnaceHistory& history, const UpkeepSet& set);

/// "2026-11-25" of a day number, and back; nothing where it is none.
std::string day_text(int day);
std::optional<int> day_number(std::string_view text);

}  // namespace heatwork::furnace_care
