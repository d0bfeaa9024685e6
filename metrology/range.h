// Refusals of arguments outside their range, one sentence each: what, what is allowed, its value.
#pragma once

namespace heatwork::metrology {

/// Refuses a value that is not finite or outside [low, high], ends allowed; `what` begins the sentence: "The hold (s)".
/// Throws std::domain_error. source: chosen-here
void require_within(double value, double low, double high, const char* what);

}  // namespace heatwork::metrology
