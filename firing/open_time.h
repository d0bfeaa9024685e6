// When the chamber of a firing opens fully: by the program in this furnace alone, so that it is quick, and how far the furnace may be off.
#pragma once

#include <optional>

#include "trade/deciding_inputs.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// From the start of the program. [s]
struct OpenTime {
  double at_s = 0, earliest_s = 0, latest_s = 0;
};

/// The band: nominal less and plus the root of the sum of squares of the one-sided changes over the inputs of the furnace; the load moves
/// no time of a program. `unchecked_display_K`: how far a display may be off that was never checked. [K]
/// Absent where the furnace cannot run the program, or could not at an end of a range: then no latest time is known.  theory: (judgement.1)
std::optional<OpenTime> open_time_of(const trade::ResolvedFiring& request, const trade::DecidingInputs& inputs, double unchecked_display_K);

}  // namespace heatwork::firing
