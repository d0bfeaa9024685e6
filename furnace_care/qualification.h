// Is this furnace qualified? As found and as left of each check, what a repair or a move reopened, specimen firings, out of use.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "furnace_care/due.h"

namespace heatwork::furnace_care {

/// What changed at a furnace so that some of it must be qualified again.
enum class Reopened { put_into_service, muffle, sensor, pump_or_seal, place, mains, repair };
std::string_view word(Reopened reopened);
/// What a repair in words reopens, by the words in it (English or German); a repair of anything else reopens all.
Reopened reopened_by(std::string_view repair);

struct Reopening {
  Reopened what = Reopened::put_into_service;
  int day = 0;
  std::string words;  ///< "new muffle", "altitude 187 m, was 30 m"
  std::string by;     ///< "check corner-muffle", "furnace corner@3"
};

enum class CheckCame { good, not_good, cannot_tell };

/// One kept check, as a report takes it.
struct QualifyingCheck {
  std::string name;
  Upkeep work = Upkeep::temperature;
  int day = 0;
  CheckCame came = CheckCame::cannot_tell;
  bool as_left = false;
  bool out_of_use = false;  ///< the decision then
};

/// A specimen firing in this furnace, ended and looked at.
struct SpecimenFiring {
  std::string name;
  int day = 0;
  bool as_wanted = false;
};

inline constexpr std::size_t specimens_wanted = 3;

/// What one work of the qualification says.
struct QualificationLine {
  Upkeep work{};
  bool wanted = false;                           ///< reopened by the last change
  std::optional<std::size_t> as_found, as_left;  ///< newest of each since then, indices of checks; as left: after the as found
  enum class State { passed, failed, undecided, missing, not_wanted } state = State::missing;
};

enum class Qualified { yes, no, not_whole, out_of_use };
std::string_view word(Qualified qualified);

struct Qualification {
  Reopening since;
  std::vector<QualificationLine> lines;                    ///< temperature, vacuum, full-power run, chamber map
  std::size_t specimens_as_wanted = 0, specimens_not = 0;  ///< since then
  std::optional<std::size_t> tagged_by;                    ///< the check that put it out of use
  Qualified outcome = Qualified::not_whole;
  std::string sentence, next;
};

/// `checks` and `reopenings` oldest first; of the latter at least one. A day counts whole: a check of the day of a repair is after it.
Qualification qualification_of(const std::vector<QualifyingCheck>& checks, const std::vector<Reopening>& reopenings,
                               const std::vector<SpecimenFiring>& specimens);

/// Which works a change reopens, of temperature, vacuum, full-power run, chamber map.
std::vector<Upkeep> works_reopened(Reopened what);

}  // namespace heatwork::furnace_care
