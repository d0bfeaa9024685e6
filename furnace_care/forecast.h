// A straight trend of one furnace's checks, carried to the limit it runs towards.
#pragma once

#include <optional>
#include <vector>

namespace heatwork::furnace_care {

/// When a value that goes on as it did lately is at its limit [days from the last check].
struct LimitForecast {
  double days = 0, earliest_days = 0;
  std::optional<double> latest_days;  ///< absent: perhaps never
};

/// By a straight line through the values of these days, the last that of the check in hand; `rises`: the limit lies above.
/// Nothing with fewer than 4 checks or within 20 days, where the slope is not twice its uncertainty, where the limit is passed, and beyond
/// 730 days. Standing: assumed. source: chosen-here
[[nodiscard]] std::optional<LimitForecast> forecast_of_limit(const std::vector<double>& days, const std::vector<double>& values,
                                                             double limit, bool rises);

}  // namespace heatwork::furnace_care
