#include "report/number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

namespace heatwork::report {
namespace {

/// Whole number; a rounded -0 shows as 0.
std::string whole(double value) {
  return fmt::format("{:.0f}", std::round(value) + 0.0);
}

/// `digits` digits that count, never in powers of ten, no more than whole numbers above that.
std::string counting(double value, int digits) {
  if (value == 0) return "0";
  const int magnitude = static_cast<int>(std::floor(std::log10(std::fabs(value)) + 1e-12));
  const int decimals = std::max(0, digits - 1 - magnitude);
  return fmt::format("{:.{}f}", value, std::min(decimals, 12));
}

}  // namespace

double in_scale(double value_C, TemperatureScale scale) {
  return scale == TemperatureScale::celsius ? value_C : value_C * 1.8 + 32.0;
}

std::string unit_of(TemperatureScale scale) {
  return scale == TemperatureScale::celsius ? "°C" : "°F";
}

std::string temperature(double value_C, TemperatureScale scale) {
  return whole(in_scale(value_C, scale)) + " " + unit_of(scale);
}

std::string difference(double value_K, TemperatureScale scale) {
  const bool celsius = scale == TemperatureScale::celsius;
  const double size = std::fabs(value_K) * (celsius ? 1.0 : 1.8);
  const std::string unit = celsius ? " K" : " °F";
  return size < 0.5 ? "under 1" + unit : whole(size) + unit;
}

std::string duration(double value_s) {
  const long total = std::lround(std::fabs(value_s));
  const long hours = total / 3600, minutes = total / 60 % 60, seconds = total % 60;
  if (hours > 0) return minutes > 0 ? fmt::format("{} h {} min", hours, minutes) : fmt::format("{} h", hours);
  if (minutes > 0) return seconds > 0 ? fmt::format("{} min {} s", minutes, seconds) : fmt::format("{} min", minutes);
  return fmt::format("{} s", seconds);
}

std::string clock(double at_s) {
  const long total = std::lround(at_s);
  return fmt::format("{}:{:02}", total / 60, total % 60);
}

std::string percent(double value) {
  if (value == 0) return "0 %";
  if (value > 0 && value < 0.1) return "under 0.1 %";
  return counting(value, 2) + " %";
}

std::string pressure(double value_Pa) {
  const double value = value_Pa / 100.0;
  return (value < 9.95 ? fmt::format("{:.1f}", value) : whole(value)) + " mbar";
}

std::string micrometres(double value_um) {
  if (value_um > 0 && value_um < 0.1) return "under 0.1 µm";
  if (value_um > 10000) return "over 10 mm";
  return (value_um < 9.95 ? counting(value_um, 2) : whole(value_um)) + " µm";
}

std::string plain(double value, const std::string& unit) {
  const std::string text = std::fabs(value) >= 1e6 || (value != 0 && std::fabs(value) < 1e-4)
                               ? fmt::format("{:.3g}", value)
                               : counting(value, std::fabs(value) < 1 ? 2 : 3);
  return unit.empty() ? text : text + " " + unit;
}

std::string shown(double value, const std::string& unit, TemperatureScale scale) {
  const std::string minus = value < 0 ? "−" : "";
  if (unit == "K") {
    const std::string size = difference(value, scale);
    return size.starts_with("under") ? size : minus + size;
  }
  if (unit == "°C" || unit == "C") return temperature(value, scale);
  if (unit == "s") return minus + duration(value);
  if (unit == "min") return minus + duration(value * 60.0);
  if (unit == "%") return percent(value);
  if (unit == "points")
    return std::fabs(value) < 0.1 && value != 0 ? "under 0.1 points" : minus + counting(std::fabs(value), 2) + " points";
  if (unit == "mbar") return pressure(value * 100.0);
  if (unit == "µm" || unit == "um") return micrometres(value);
  return plain(value, unit);
}

std::string limit(double value, const std::string& unit, TemperatureScale scale) {
  const bool degrees = unit == "K" || unit == "°C" || unit == "C" || unit == "s" || unit == "min";
  if (degrees) return shown(value, unit, scale);
  return fmt::format("{:g}", value) + (unit.empty() ? "" : " " + unit);
}

double written(double value, const char* what) {
  if (!std::isfinite(value)) throw std::logic_error(fmt::format("{} is not a finite number and cannot be written", what));
  return std::strtod(fmt::format("{:.10g}", value).c_str(), nullptr) + 0.0;
}

}  // namespace heatwork::report
