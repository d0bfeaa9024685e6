// The root of a rising function inside bounds, by halving; nothing beyond them.
#pragma once

#include <cmath>
#include <optional>
#include <stdexcept>

namespace heatwork::physics {

/// Where a rising function of x is zero, to `resolution`, within [low, high] [unit of x].
/// Nothing where that would be beyond the bounds. Throws std::domain_error where the function is no number. source: chosen-here
template <typename Function>
std::optional<double> rising_root(Function excess, double low, double high, double resolution) {
  const auto at = [&](double x) {
    const double value = excess(x);
    if (std::isnan(value))
      throw std::domain_error("the quantity to be matched is no number; the histories must be within the model's range");
    return value;
  };
  if (low <= 0.0 && high >= 0.0 && at(0.0) == 0.0) return 0.0;
  constexpr double rounding = 1e-12;  // a root at a bound must not be lost by it
  const double at_low = at(low);
  const double at_high = at(high);
  if (std::abs(at_low) <= rounding) return low;
  if (std::abs(at_high) <= rounding) return high;
  if (at_low > 0.0 || at_high < 0.0) return std::nullopt;
  while (high - low > resolution) {
    const double middle = 0.5 * (low + high);
    (at(middle) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace heatwork::physics
