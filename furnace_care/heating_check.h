// A run at full power: whether the muffle heats as it did, and if not, whether its element, its lining, its mains or a capped rate is why.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "furnace_care/finding.h"
#include "furnace_care/forecast.h"
#include "metrology/heating_run.h"
#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

/// The muffle as an earlier check found it, at nominal mains.
struct MuffleSeen {
  double day = 0;  ///< of the check, counted from any day
  double gain_K_per_s = 0, loss_per_s = 0;
  std::string name;  ///< of the check
};

struct HeatingAsked {
  const trade::Furnace& furnace;
  const trade::HeatingRunTest& test;
  std::vector<MuffleSeen> earlier;  ///< since the last repair, oldest first
  double day = 0;                   ///< of this check
};

struct HeatingTold {
  CheckLevel level = CheckLevel::cannot_tell;
  std::string verdict;   ///< a word or two, kept with the check
  std::string sentence;  ///< of the first finding of that level
  std::vector<CareFinding> findings;
  std::vector<std::string> next;     ///< what to do, in order
  std::vector<std::string> remarks;  ///< on how the record was taken
  double room_C = 0;
  double nominal_V = 0;
  std::optional<double> mains_V;                                        ///< absent: not read
  std::optional<metrology::HeatingRun> run;                             ///< absent: the record does not hold one
  std::optional<metrology::GainAndLoss> when_new;                       ///< what it is compared with
  std::string compared_with;                                            ///< where that comes from
  std::optional<double> from_500_to_900_s, from_500_to_900_when_new_s;  ///< at nominal mains
  std::optional<double> slow_while_drying_s;                            ///< how long it fell behind by a tenth from 60 to 150 °C
  bool drying_advised = false;
  std::optional<LimitForecast> forecast;  ///< when a muffle that weakens as it did lately must have its element replaced
};

/// Judges the readings of a run at full power. A record that does not suffice is told as cannot tell.
/// Errors: std::domain_error for mains no furnace runs on, a display this furnace never shows, a muffle that would be another furnace's.
[[nodiscard]] HeatingTold tell_heating(const HeatingAsked& asked);

}  // namespace heatwork::furnace_care
