// Units as they are typed: "K/min", "W/(m2 K)", "µm", "mbar/s". A unit is a factor to SI and the powers of the base units.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace heatwork::quantity {

/// A unit: its size in SI and its powers of metre, kilogram, second, kelvin, mole, ampere. A degree of a scale counts as a difference.
struct Unit {
  double factor = 1;
  std::array<int, 6> powers{};
  [[nodiscard]] bool same_dimension(const Unit& other) const { return powers == other.powers; }
};

/// The typed text in plain ASCII spelling: "°C" to "degC", "µ" to "u", raised digits to digits, "·" and narrow spaces to spaces.
[[nodiscard]] std::string plain_spelling(std::string_view typed);

/// A unit such as "kg/m3", "/s", "J/(kg K)", "10^-6/K"; nothing where the text is no unit.
[[nodiscard]] std::optional<Unit> read_unit(std::string_view typed);

}  // namespace heatwork::quantity
