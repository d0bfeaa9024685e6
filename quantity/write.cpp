#include "quantity/write.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace heatwork::quantity {
namespace {

std::string with_unit(double value, std::string_view unit) {
  return fmt::format("{} {}", write_number(value), unit);
}

/// A number in fixed digits with the reader's decimal mark; what rounds to zero has no sign.
std::string fixed(double value, int decimals, char mark) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find_first_not_of("-0.") == std::string::npos && text[0] == '-') text.erase(0, 1);
  std::replace(text.begin(), text.end(), '.', mark);
  return text;
}

double fahrenheit(Temperature value) {
  return value.celsius() * 9 / 5 + 32;
}

}  // namespace

std::string write_number(double value) {
  return fmt::format("{:.12g}", value == 0 ? 0.0 : value);
}
std::string write_in(double value, std::string_view unit) {
  return unit.empty() ? write_number(value) : with_unit(value, unit);
}

std::string write(Temperature value) {
  return with_unit(std::round(value.celsius() * 1e9) / 1e9, "°C");
}
std::string write(TemperatureDifference value) {
  return with_unit(value.si(), "K");
}
std::string write(HeatingRate value) {
  return with_unit(value.si() * 60, "K/min");
}
std::string write(Pressure value) {
  return with_unit(value.si() / 100, "mbar");
}
std::string write(PressureRate value) {
  return with_unit(value.si() / 100, "mbar/s");
}
std::string write(Length value) {
  return std::abs(value.si()) < 1e-4 && value.si() != 0 ? with_unit(value.si() * 1e6, "µm") : with_unit(value.si() * 1e3, "mm");
}
std::string write(Area value) {
  return with_unit(value.si() * 1e4, "cm2");
}
std::string write(Volume value) {
  return value.si() < 1e-4 ? with_unit(value.si() * 1e6, "cm3") : with_unit(value.si() * 1e3, "l");
}
std::string write(Mass value) {
  return with_unit(value.si() * 1e3, "g");
}
std::string write(Voltage value) {
  return with_unit(value.si(), "V");
}
std::string write(Fraction value) {
  return with_unit(value.si() * 100, "%");
}
std::string write(Frequency value) {
  return with_unit(value.si(), "/s");
}

std::string write(Duration value) {
  const double total = std::round(value.si() * 1e6) / 1e6;
  if (total < 60 || total >= 1e12) return with_unit(total, "s");
  const double hours = std::floor(total / 3600);
  const double minutes = std::floor((total - 3600 * hours) / 60);
  const double rest = std::round((total - 3600 * hours - 60 * minutes) * 1e6) / 1e6;
  std::string text;
  if (hours > 0) text += with_unit(hours, "h");
  if (minutes > 0) text += (text.empty() ? "" : " ") + with_unit(minutes, "min");
  if (rest > 0) text += " " + with_unit(rest, "s");
  return text;
}

std::string show(Temperature value, const Manner& manner) {
  if (manner.units == UnitSystem::fahrenheit) return fixed(fahrenheit(value), manner.decimals, manner.decimal_mark) + " °F";
  return fixed(value.celsius(), manner.decimals, manner.decimal_mark) + " °C";
}

std::string show(TemperatureDifference value, const Manner& manner) {
  if (manner.units == UnitSystem::fahrenheit) return fixed(value.si() * 9 / 5, manner.decimals, manner.decimal_mark) + " °F";
  return fixed(value.si(), manner.decimals, manner.decimal_mark) + " K";
}

std::string show(HeatingRate value, const Manner& manner) {
  if (manner.units == UnitSystem::fahrenheit) return fixed(value.si() * 60 * 9 / 5, manner.decimals, manner.decimal_mark) + " °F/min";
  return fixed(value.si() * 60, manner.decimals, manner.decimal_mark) + " K/min";
}

std::string show(Duration value, const Manner&) {
  return write(seconds(std::round(value.si())));
}

std::string show(Pressure value, const Manner& manner) {
  const double millibar = value.si() / 100;
  return fixed(millibar, std::abs(millibar) < 10 ? 1 : 0, manner.decimal_mark) + " mbar";
}

std::string show(Length value, const Manner& manner) {
  const double millimetre = value.si() * 1e3;
  if (std::abs(millimetre) < 0.1) return fixed(millimetre * 1e3, 0, manner.decimal_mark) + " µm";
  return fixed(millimetre, 2, manner.decimal_mark) + " mm";
}

}  // namespace heatwork::quantity
