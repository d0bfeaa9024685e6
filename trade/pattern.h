// How quantities are spelled in a file, as regular expressions for the schema: the usual spellings of each unit.
#pragma once

#include <string>
#include <string_view>

namespace heatwork::trade {

/// What the range of a quantity leaves of its sign.
enum class Sign { any, not_negative, positive };

/// Pattern of a quantity of a kind such as "a heating rate".
/// Errors: std::invalid_argument for a kind that has no pattern.
[[nodiscard]] std::string pattern_of_kind(std::string_view kind, Sign sign);

/// Pattern of a number with a unit such as "J/(kg K)", in any prefix; with an empty unit, of a plain number.
[[nodiscard]] std::string pattern_of_unit(std::string_view unit, Sign sign);

/// Pattern of a reading over time, "30 s, 300 mbar" and "30 s, 412 °C".
[[nodiscard]] std::string pattern_of_gauge_sample();
[[nodiscard]] std::string pattern_of_temperature_sample();

/// Pattern of a name, and of the texts that have a form of their own.
inline constexpr std::string_view name_pattern = "^[A-Za-z0-9_-]{1,60}$";

}  // namespace heatwork::trade
