#include "firing/arc.h"

#include <algorithm>
#include <cmath>

#include "firing/crossing.h"

namespace heatwork::firing {
namespace {

/// The sensor under T = limit + A exp(-pace u).  theory: (chamber.3)
double sensor_towards(const Arc& arc, double u_s) {
  const double excess = arc.true_C - arc.limit_C;
  const double mismatch = 1 - arc.pace_per_s * arc.lag_s;
  const double fading = std::exp(-u_s / arc.lag_s);
  if (std::abs(mismatch) < 1e-7) return arc.limit_C + (arc.sensor_C - arc.limit_C + excess * u_s / arc.lag_s) * fading;
  const double particular = excess / mismatch;
  return arc.limit_C + particular * std::exp(-arc.pace_per_s * u_s) + (arc.sensor_C - arc.limit_C - particular) * fading;
}

}  // namespace

double Arc::sensor_at(double u_s) const {
  switch (law) {
    case ArcLaw::settle: {
      if (rest_s <= 0) return target_C;
      const double offset = sensor_C - target_C;
      return target_C + (offset + (slope_K_per_s + offset / rest_s) * u_s) * std::exp(-u_s / rest_s);
    }
    case ArcLaw::slow_down:
      return sensor_C + slope_K_per_s * u_s - 0.5 * braking_K_per_s2 * u_s * u_s;
    case ArcLaw::towards:
      return lag_s > 0 ? sensor_towards(*this, u_s) : true_at(u_s);
    case ArcLaw::line:
      break;
  }
  if (lag_s <= 0) return true_at(u_s);
  const double lead = lag_s * slope_K_per_s;
  return true_C - lead + slope_K_per_s * u_s + (sensor_C - true_C + lead) * std::exp(-u_s / lag_s);
}

double Arc::true_at(double u_s) const {
  if (law == ArcLaw::towards) return limit_C + (true_C - limit_C) * std::exp(-pace_per_s * u_s);
  if (law == ArcLaw::line) return true_C + slope_K_per_s * u_s;
  return sensor_at(u_s) + lag_s * sensor_slope_at(u_s);
}

double Arc::sensor_slope_at(double u_s) const {
  switch (law) {
    case ArcLaw::settle: {
      if (rest_s <= 0) return 0;
      const double offset = sensor_C - target_C;
      const double drive = slope_K_per_s + offset / rest_s;
      return (drive - (offset + drive * u_s) / rest_s) * std::exp(-u_s / rest_s);
    }
    case ArcLaw::slow_down:
      return slope_K_per_s - braking_K_per_s2 * u_s;
    case ArcLaw::towards:
      if (lag_s <= 0) return pace_per_s * (limit_C - true_at(u_s));
      break;
    case ArcLaw::line:
      if (lag_s <= 0) return slope_K_per_s;
      break;
  }
  return (true_at(u_s) - sensor_at(u_s)) / lag_s;
}

std::optional<double> meets_line(const Arc& arc, double line_C, double line_slope_K_per_s) {
  const auto gap = [&](double u_s) { return arc.true_at(u_s) - line_C - line_slope_K_per_s * u_s; };
  const double start = gap(0);
  if (start == 0) return 0;
  const double slope = arc.pace_per_s * (arc.limit_C - arc.true_C);
  if ((slope - line_slope_K_per_s > 0) == (start > 0)) return std::nullopt;  // runs away from the line at once
  constexpr double day_s = 86400;
  double last = day_s;
  // Beyond the moment at which both are equally fast the arc turns away again.
  if (slope * line_slope_K_per_s > 0) last = std::min(day_s, std::log(slope / line_slope_K_per_s) / arc.pace_per_s);
  if ((gap(last) > 0) == (start > 0)) return std::nullopt;
  return crossing(gap, 0, last, start < 0);
}

}  // namespace heatwork::firing
