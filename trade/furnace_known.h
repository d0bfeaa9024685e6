// What the kept checks of a furnace say beyond its file, as one rehearsal used it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/quantity.h"

namespace heatwork::trade {

/// One thing that is told of a check: a value it gave, that something newer stands instead, or why it does not count.
struct SaidOfCheck {
  std::string of;     ///< "display error", "heating gain", "heating loss", "pump time constant", "lowest pressure", "leak"
  std::string check;  ///< name
  std::string day;    ///< it was done on, in the lab's zone
  bool used = false;  ///< its value is the one the rehearsal used
  std::optional<double> value, standard_uncertainty;  ///< as used, in `unit`
  std::string unit;
  std::string sentence;
};

/// Standard uncertainties of what checks decide; absent: the range of the deciding inputs stands.
struct FurnaceKnown {
  std::optional<quantity::HeatingRate> gain_u;
  std::optional<quantity::Duration> pump_time_constant_u;
  std::optional<quantity::Pressure> ultimate_u;
  std::optional<quantity::PressureRate> leak_u;
  std::vector<SaidOfCheck> said;  ///< empty: no check of the furnace is kept, or its file stands alone
};

}  // namespace heatwork::trade
