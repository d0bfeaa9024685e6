// Refusals of arguments outside their range, one sentence each: what, its value, what is allowed.
#pragma once

#include <span>

namespace heatwork::physics {

/// Refuses a value that is not finite and above zero [unit in the name]. Throws std::domain_error. source: chosen-here
void require_positive(const char* name, double value);

/// Refuses a value that is not finite or outside [low, high], ends allowed [unit in the name]. Throws std::domain_error.
/// source: chosen-here
void require_within(const char* name, double value, double low, double high);

/// Refuses a history with fewer than two points, lists of unequal length, times that fall or temperatures at or below 0 K [s, K].
/// Two points at one time are a jump. Throws std::invalid_argument or std::domain_error. source: chosen-here
void require_history(std::span<const double> times_s, std::span<const double> temperatures_K);

}  // namespace heatwork::physics
