#include "report/number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "quantity/people_write.h"

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

std::string clock(double at_s) {
  const long total = std::lround(at_s);
  return fmt::format("{}:{:02}", total / 60, total % 60);
}

Numbers::Numbers(const trade::Words& words, TemperatureScale scale)
    : words_(&words), decimal_mark_(words.say("language.decimal_mark")), scale_(scale) {}

std::string Numbers::marked(const std::string& number) const {
  return quantity::as_people_write(number, decimal_mark_);
}

std::string Numbers::in_unit(const std::string& number, const std::string& unit) const {
  if (unit.empty()) return number;
  std::string key = "numbers.unit." + unit;
  std::replace(key.begin(), key.end(), ' ', '_');
  return number + " " + (words_->has(key) ? words_->say(key) : unit);
}

std::string Numbers::under(const std::string& value) const {
  return say("numbers.under", {{"value", value}});
}

std::string Numbers::temperature(double value_C) const {
  return whole(in_scale(value_C, scale_)) + " " + unit_of(scale_);
}

std::string Numbers::temperatures(double from_C, double to_C) const {
  return say("numbers.range", {{"from", fmt::format("{:.0f}", in_scale(from_C, scale_))}, {"to", temperature(to_C)}});
}

std::string Numbers::unit_of_difference() const {
  return scale_ == TemperatureScale::celsius ? "K" : "°F";
}

std::string Numbers::difference(double value_K) const {
  const double size = std::fabs(value_K) * (scale_ == TemperatureScale::celsius ? 1.0 : 1.8);
  return size < 0.5 ? under("1 " + unit_of_difference()) : whole(size) + " " + unit_of_difference();
}

std::string Numbers::duration(double value_s) const {
  const long total = std::lround(std::fabs(value_s));
  const long hours = total / 3600, minutes = total / 60 % 60, seconds = total % 60;
  if (hours > 0) return minutes > 0 ? fmt::format("{} h {} min", hours, minutes) : fmt::format("{} h", hours);
  if (minutes > 0) return seconds > 0 ? fmt::format("{} min {} s", minutes, seconds) : fmt::format("{} min", minutes);
  return fmt::format("{} s", seconds);
}

std::string Numbers::percent(double value) const {
  if (value == 0) return "0 %";
  if (value > 0 && value < 0.1) return under(marked("0.1") + " %");
  return marked(counting(value, 2)) + " %";
}

std::string Numbers::pressure(double value_Pa) const {
  const double value = value_Pa / 100.0;
  return (value < 9.95 ? marked(fmt::format("{:.1f}", value)) : whole(value)) + " mbar";
}

std::string Numbers::micrometres(double value_um) const {
  if (value_um > 0 && value_um < 0.1) return under(marked("0.1") + " µm");
  if (value_um > 10000) return say("numbers.over", {{"value", "10 mm"}});
  return (value_um < 9.95 ? marked(counting(value_um, 2)) : whole(value_um)) + " µm";
}

std::string Numbers::plain(double value, const std::string& unit) const {
  const std::string text = std::fabs(value) >= 1e6 || (value != 0 && std::fabs(value) < 1e-4)
                               ? fmt::format("{:.3g}", value)
                               : counting(value, std::fabs(value) < 1 ? 2 : 3);
  return in_unit(marked(text), unit);
}

std::string Numbers::shown(double value, const std::string& unit) const {
  const std::string minus = value < 0 ? "−" : "";
  if (unit == "K") return difference(0) == difference(value) ? difference(value) : minus + difference(value);
  if (unit == "°C" || unit == "C") return temperature(value);
  if (unit == "s") return minus + duration(value);
  if (unit == "min") return minus + duration(value * 60.0);
  if (unit == "%") return percent(value);
  if (unit == "points") {
    const bool tiny = std::fabs(value) < 0.1 && value != 0;
    return tiny ? under(in_unit(marked("0.1"), unit)) : minus + in_unit(marked(counting(std::fabs(value), 2)), unit);
  }
  if (unit == "MPa") {
    const double size = std::fabs(value);
    if (size < 0.05) return in_unit("0", unit);
    return minus + in_unit(size < 9.95 ? marked(fmt::format("{:.1f}", size)) : whole(size), unit);
  }
  if (unit == "mbar") return pressure(value * 100.0);
  if (unit == "µm" || unit == "um") return micrometres(value);
  return plain(value, unit);
}

std::string Numbers::limit(double value, const std::string& unit) const {
  const bool degrees = unit == "K" || unit == "°C" || unit == "C" || unit == "s" || unit == "min";
  return degrees ? shown(value, unit) : in_unit(marked(fmt::format("{:g}", value)), unit);
}

std::string Numbers::tick(double value) const {
  const double size = std::fabs(value);
  const std::string minus = value < -1e-9 ? "−" : "";
  return minus + (size >= 1 || size < 1e-9 ? fmt::format("{:.0f}", size) : marked(fmt::format("{:.1f}", size)));
}

double written(double value, const char* what) {
  if (!std::isfinite(value)) throw std::logic_error(fmt::format("{} is not a finite number and cannot be written", what));
  return std::strtod(fmt::format("{:.10g}", value).c_str(), nullptr) + 0.0;
}

}  // namespace heatwork::report
