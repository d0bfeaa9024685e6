// The root of a rising function inside bounds; whoever asks learns on which side of them it lies otherwise.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace heatwork::physics {

/// What is known of the root before the search [unit of x].
struct RootSearch {
  double low = 0;
  double high = 0;
  double first = 0;       ///< where to begin, within the bounds
  double slope = 1;       ///< rough slope of the function there, per unit of x
  double resolution = 0;  ///< of x
};

/// The root, or the side of the bounds it lies beyond; `x` is then that bound [unit of x].
struct RisingRoot {
  double x = 0;
  bool below = false;
  bool above = false;
  /// True where `x` is the root itself, not a bound.
  [[nodiscard]] bool within() const { return !below && !above; }
};

/// Where a rising function of x is zero, to `resolution` [unit of x]. Secant steps kept inside the bracket found so far; a bound is tried
/// before anything is said of it; halving where steps stall. Throws std::domain_error where the function is no number, std::runtime_error
/// where it does not rise. source: chosen-here
template <typename Function>
RisingRoot rising_root(const Function& excess, const RootSearch& search) {
  constexpr double rounding = 1e-12;  // a root at a bound must not be lost by it
  constexpr int most_steps = 600;
  constexpr int stalled_after = 6;  // every sixth step halves, or tries a bound, whatever the secant says
  double low = search.low, high = search.high, x = search.first, slope = search.slope;
  bool tried_low = false, tried_high = false;
  double last_x = x, last = std::numeric_limits<double>::quiet_NaN();
  for (int i = 0; i < most_steps; ++i) {
    const double value = excess(x);
    if (std::isnan(value))
      throw std::domain_error("the quantity to be matched is no number; the histories must be within the model's range");
    if (value == 0.0) return {x};
    if (x <= search.low && value > 0.0) return value <= rounding ? RisingRoot{x} : RisingRoot{x, true, false};
    if (x >= search.high && value < 0.0) return value >= -rounding ? RisingRoot{x} : RisingRoot{x, false, true};
    (value < 0.0 ? low : high) = x;
    (value < 0.0 ? tried_low : tried_high) = true;
    if (x != last_x && std::isfinite(last) && std::isfinite(value) && (value - last) / (x - last_x) > 0.0)
      slope = (value - last) / (x - last_x);
    last_x = x;
    last = value;
    const double step = std::isfinite(value) ? -value / slope : 0.0;
    if (std::isfinite(value) && std::abs(step) <= search.resolution) return {std::clamp(x + step, low, high)};
    if (tried_low && tried_high && high - low <= search.resolution) return {0.5 * (low + high)};
    const bool halve = !std::isfinite(value) || i % stalled_after == stalled_after - 1;
    double next = halve ? 0.5 * (low + high) : x + step;
    if (halve && !(tried_low && tried_high)) next = tried_low ? high : low;
    if (next <= low) next = tried_low ? 0.5 * (low + high) : low;
    if (next >= high) next = tried_high ? 0.5 * (low + high) : high;
    x = next;
  }
  throw std::runtime_error("no root of a rising function was found in 600 steps; the function must rise within the bounds");
}

}  // namespace heatwork::physics
