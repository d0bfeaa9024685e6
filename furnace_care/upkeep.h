// The works that keep a furnace true, how often each is due, and whose word that is.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

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
inline constexpr std::size_t upkeep_works = 12;

/// "temperature check", as files and lists name it; and back, nothing where it is none of these works.
std::string_view word(Upkeep work);
std::optional<Upkeep> upkeep_of(std::string_view word);

/// A work that is done by a check whose readings are kept, or by several: nobody marks it done by hand.
bool is_done_by_check(Upkeep work);

/// What calls for a work whenever it happens, in a sentence; empty: time and use alone.
std::string_view called_for_by(Upkeep work);

/// Whose word an interval is; the earlier goes before the later.
enum class SetBy { certificate, furnace_maker, lab, lab_for_all, common_practice, assumed };
std::string_view word(SetBy by);

/// How often a work is due: whichever of these comes first.
struct UpkeepInterval {
  std::optional<int> every_days;
  std::optional<int> after_firings;
  std::optional<double> after_hours;  ///< of firings
  SetBy by = SetBy::assumed;
  std::string stated_in;  ///< where the furnace maker says so
  std::string person;     ///< who set it; empty: nobody, or not known
};

/// "every 30 days or after 100 firings"; empty where nothing is said.
std::string in_words(const UpkeepInterval& interval);
/// "furnace maker's instruction, manual page 31; set by mara".
std::string who_says(const UpkeepInterval& interval);

/// What a record, or somebody by hand, tells of a work.
struct UpkeepDone {
  int day = 0;     ///< days since 1970-01-01, in the zone of the lab
  std::string by;  ///< "check corner-autumn", "firing clean-3", "mara, marked by hand"
};

/// What furnace and lab set: of the works above, and of works of their own by name.
struct UpkeepSet {
  std::map<Upkeep, UpkeepInterval> works;
  std::map<std::string, UpkeepInterval> own;
  std::map<std::string, UpkeepDone> own_done;

  /// Takes an interval unless one stands whose word goes before.
  void take(const std::string& what, const UpkeepInterval& interval);
};

/// Intervals that ship, for those that neither furnace nor lab sets. Standing of each with it.
std::map<Upkeep, UpkeepInterval> usual_intervals(int firings_last_quarter);
}  // namespace heatwork::furnace_care
