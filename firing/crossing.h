// When a function of time crosses zero, to the last digit: events of a firing are found, not stepped over.
#pragma once

#include <algorithm>
#include <optional>

namespace heatwork::firing {

/// Zero of a function with one change of sign between two times, by halving; `rising`: below zero at `low_s`. [s]
template <class Function>
double crossing(const Function& function, double low_s, double high_s, bool rising) {
  constexpr int halvings = 60;
  for (int i = 0; i < halvings && high_s - low_s > 1e-11; ++i) {
    const double middle_s = 0.5 * (low_s + high_s);
    if ((function(middle_s) < 0) == rising) {
      low_s = middle_s;
    } else {
      high_s = middle_s;
    }
  }
  return high_s;
}

/// First time at which a function that may rise to zero once has done so, by doubling and halving; 0 where it starts there or above. [s]
/// Absent: not within `limit_s`.
template <class Function>
std::optional<double> first_rise(const Function& function, double limit_s) {
  if (function(0) >= 0) return 0;
  constexpr double first_look_s = 0.25;
  double low_s = 0;
  double high_s = std::min(first_look_s, limit_s);
  while (function(high_s) < 0) {
    if (high_s >= limit_s) return std::nullopt;
    low_s = high_s;
    high_s = std::min(2 * high_s, limit_s);
  }
  return crossing(function, low_s, high_s, true);
}

}  // namespace heatwork::firing
