#include "report/axis.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace heatwork::report {

double Axis::at(double value) const {
  const double inside = bounded || logarithmic ? std::clamp(value, low, high) : value;
  const double share = logarithmic ? std::log(inside / low) / std::log(high / low) : (inside - low) / (high - low);
  return from_px + share * (to_px - from_px);
}

Axis Axis::unbounded() const {
  Axis axis = *this;
  axis.bounded = false;
  return axis;
}

std::vector<double> round_ticks(double low, double high, int wanted) {
  const double raw = (high - low) / std::max(1, wanted);
  if (!(raw > 0)) return {low};
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  double step = 10.0 * power;
  for (const double factor : {1.0, 2.0, 2.5, 5.0}) {
    if (factor * power >= raw * 0.999) {
      step = factor * power;
      break;
    }
  }
  std::vector<double> ticks;
  for (double i = std::ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; i += 1.0) ticks.push_back(i * step);
  return ticks;
}

std::vector<double> decade_ticks(double low, double high) {
  std::vector<double> ticks;
  for (double i = std::ceil(std::log10(low) - 1e-9); i <= std::log10(high) + 1e-9; i += 1.0) ticks.push_back(std::pow(10.0, i));
  return ticks;
}

std::vector<double> minute_ticks(double end_s, int most) {
  static constexpr std::array<double, 9> steps_min = {1, 2, 5, 10, 15, 30, 60, 120, 240};
  double step_s = 60.0 * steps_min.back();
  for (const double step : steps_min) {
    if (end_s / (60.0 * step) <= most) {
      step_s = 60.0 * step;
      break;
    }
  }
  while (end_s / step_s > most) step_s *= 2.0;
  std::vector<double> ticks;
  for (double i = 0; i * step_s <= end_s + 1e-6; i += 1.0) ticks.push_back(i * step_s);
  return ticks;
}

double round_up(double value) {
  if (!(value > 0)) return 1;
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double factor : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0}) {
    if (factor * power >= value * (1 - 1e-12)) return factor * power;
  }
  return 10.0 * power;
}

}  // namespace heatwork::report
