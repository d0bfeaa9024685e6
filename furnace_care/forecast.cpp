#include "furnace_care/forecast.h"

#include <algorithm>

#include "metrology/straight_line.h"

namespace heatwork::furnace_care {
namespace {

// Standing of all: assumed. source: chosen-here
constexpr std::size_t fewest_checks = 4;
constexpr double shortest_trend_days = 20.0, furthest_days = 730.0;

}  // namespace

std::optional<LimitForecast> forecast_of_limit(const std::vector<double>& days, const std::vector<double>& values, double limit,
                                               bool rises) {
  if (days.size() < fewest_checks || days.back() - days.front() < shortest_trend_days) return std::nullopt;
  const metrology::StraightLine line = metrology::fit_straight_line(days, values, days.back());
  const double towards = rises ? 1.0 : -1.0;
  const double left = towards * (limit - line.intercept), a_day = towards * line.slope;
  if (a_day <= 2.0 * line.slope_u || left <= 0.0) return std::nullopt;
  LimitForecast forecast;
  forecast.days = left / a_day;
  if (forecast.days > furthest_days) return std::nullopt;
  forecast.earliest_days = std::max(0.0, (left - 2.0 * line.intercept_u) / (a_day + 2.0 * line.slope_u));
  const double latest_days = (left + 2.0 * line.intercept_u) / (a_day - 2.0 * line.slope_u);
  if (latest_days <= furthest_days) forecast.latest_days = latest_days;
  return forecast;
}

}  // namespace heatwork::furnace_care
