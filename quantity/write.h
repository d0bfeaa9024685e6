// Quantities written out: canonical text for files and JSON (the same everywhere), and text for a reader's language and units.
#pragma once

#include <string>

#include "quantity/quantity.h"

namespace heatwork::quantity {

/// Canonical text, read back to the same value: "850 °C", "12 K", "55 K/min", "1 min 30 s", "50 mbar", "0.7 mm", "70 %", "0.004 /s".
[[nodiscard]] std::string write(Temperature value);
[[nodiscard]] std::string write(TemperatureDifference value);
[[nodiscard]] std::string write(HeatingRate value);
[[nodiscard]] std::string write(Duration value);
[[nodiscard]] std::string write(Pressure value);
[[nodiscard]] std::string write(PressureRate value);
[[nodiscard]] std::string write(Length value);
[[nodiscard]] std::string write(Area value);
[[nodiscard]] std::string write(Volume value);
[[nodiscard]] std::string write(Mass value);
[[nodiscard]] std::string write(Voltage value);
[[nodiscard]] std::string write(Fraction value);
[[nodiscard]] std::string write(Frequency value);

/// Canonical text of a value in any unit: write_in(72, "GPa") is "72 GPa".
[[nodiscard]] std::string write_in(double value, std::string_view unit);
/// A number in at most 12 digits, the same on every machine; -0 is written 0.
[[nodiscard]] std::string write_number(double value);

/// Units for a reader: metric, or degrees Fahrenheit with everything else metric, as labs there work.
enum class UnitSystem { metric, fahrenheit };

/// How a reader wants numbers: units, decimal mark, and digits after it for a temperature or a rate.
struct Manner {
  UnitSystem units = UnitSystem::metric;
  char decimal_mark = '.';
  int decimals = 0;
};

/// Text for a reader, rounded to the manner's decimals. A difference or a rate in Fahrenheit never gets the 32.
[[nodiscard]] std::string show(Temperature value, const Manner& manner);
[[nodiscard]] std::string show(TemperatureDifference value, const Manner& manner);
[[nodiscard]] std::string show(HeatingRate value, const Manner& manner);
[[nodiscard]] std::string show(Duration value, const Manner& manner);
[[nodiscard]] std::string show(Pressure value, const Manner& manner);
[[nodiscard]] std::string show(Length value, const Manner& manner);

}  // namespace heatwork::quantity
