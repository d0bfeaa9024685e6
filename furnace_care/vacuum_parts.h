// The two halves of a vacuum check. Included by its own sources only.
#pragma once

#include <vector>

#include "furnace_care/vacuum_check.h"

namespace heatwork::furnace_care {

/// A record of a gauge in columns, absolute.
struct GaugeRecord {
  std::vector<double> times_s, pressures_mbar;
  double step_mbar = 0;  ///< of the gauge
};

/// Pump, its lowest pressure, its history: fills what it finds, and adds findings and advice.
void look_at_pump(const VacuumAsked& asked, VacuumTold& told);
/// What comes back into the shut chamber; the pump comes first, as it says what a leak does.
void look_at_chamber(const VacuumAsked& asked, VacuumTold& told);

}  // namespace heatwork::furnace_care
