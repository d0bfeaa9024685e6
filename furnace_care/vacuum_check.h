// The vacuum of a furnace: how fast its pump is and how low it gets, what comes back into the shut chamber, against its own history.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "furnace_care/finding.h"
#include "furnace_care/forecast.h"
#include "furnace_care/gauge.h"
#include "metrology/pump_down.h"
#include "metrology/rate_of_rise.h"

namespace heatwork::furnace_care {

/// The pump as an earlier check found it.
struct PumpSeen {
  double day = 0;  ///< of the check, counted from any day
  double time_constant_s = 0, ultimate_mbar = 0;
  bool warm = false;  ///< it had run warm before
};

struct VacuumAsked {
  const trade::Furnace& furnace;
  const trade::VacuumTest& test;
  std::vector<PumpSeen> earlier;  ///< since the last repair, oldest first
  double day = 0;                 ///< of this check
  bool rise_possible = true;      ///< false: this furnace cannot be shut with its pump off
};

struct VacuumTold {
  CheckLevel level = CheckLevel::cannot_tell;
  std::string verdict;   ///< a word or two, kept with the check
  std::string sentence;  ///< of the first finding of that level
  std::vector<CareFinding> findings;
  std::vector<std::string> next;     ///< what to do, in order
  std::vector<std::string> remarks;  ///< on how the record was taken
  AirAround air;
  trade::GaugeKind gauge = trade::GaugeKind::absolute;
  std::vector<std::array<double, 2>> pump_down, rise;  ///< as absolute pressures [s, mbar]
  std::optional<metrology::PumpDown> pump;
  std::optional<double> time_constant_sd_s, ultimate_sd_mbar;
  std::optional<double> speed_L_per_s;
  std::optional<double> to_porcelain_vacuum_s;  ///< from the air to 50 mbar
  std::optional<metrology::PumpDown> usual;     ///< what it is compared with
  metrology::PumpChange change = metrology::PumpChange::unknown;
  std::optional<LimitForecast> forecast;  ///< when a pump that slows down as it did lately is slower than is allowed
  std::optional<metrology::Rise> chamber;
  std::optional<double> leak_mbar_per_s, leak_sd_mbar_per_s;
  std::optional<double> saturation_mbar;  ///< of water at the room's temperature
};

/// Porcelain is fired at or below the first; above the second it is no porcelain vacuum. Standing: assumed (common practice). [mbar]
/// source: field-memory
inline constexpr double porcelain_vacuum_mbar = 50.0, highest_porcelain_vacuum_mbar = 60.0;
/// A leak may lift the lowest pressure by so much. Standing: assumed. [mbar] source: chosen-here
inline constexpr double leak_may_lift_mbar = 3.0;

/// Judges the readings of a vacuum check. A record that does not suffice is told as cannot tell.
/// Errors: std::domain_error for a gauge that cannot show that here, a pump that would be another furnace's, a rise without the room.
[[nodiscard]] VacuumTold tell_vacuum(const VacuumAsked& asked);

/// "leak", "gas from the lining", "water", "leak and gas from the lining", "undecided"
[[nodiscard]] std::string word(metrology::RiseVerdict verdict);

/// "as before", "weak pump", "leak or water", "wet pump", "weak pump, and leak or water", "cannot tell"
[[nodiscard]] std::string word(metrology::PumpChange change);

}  // namespace heatwork::furnace_care
