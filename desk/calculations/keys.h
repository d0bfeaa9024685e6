// Keys that several calculations share, stated once.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "desk/calculations/calculation.h"
#include "physics/viscosity.h"

namespace heatwork::desk {

/// Shipped classes of material that carry a viscosity and sinter; that crystallise; zirconia.
std::vector<std::string> viscous_classes();
std::vector<std::string> crystallising_classes();
std::vector<std::string> zirconia_classes();

inline constexpr double coldest_C = -273.15;
inline constexpr double hottest_C = 3000;
inline constexpr double longest_s = 1e8;

constexpr Field temperature_key(std::string_view name, std::string_view meaning) {
  return {.name = name, .meaning = meaning, .unit = "°C", .at_least = coldest_C, .at_most = hottest_C};
}
constexpr Field positive_key(std::string_view name, std::string_view meaning, std::string_view unit, double at_most) {
  return {.name = name, .meaning = meaning, .unit = unit, .at_least = 0, .at_most = at_most, .above = true};
}
constexpr Field between_key(std::string_view name, std::string_view meaning, std::string_view unit, double at_least, double at_most) {
  return {.name = name, .meaning = meaning, .unit = unit, .at_least = at_least, .at_most = at_most};
}
constexpr Field answer_key(std::string_view name, std::string_view meaning, std::string_view unit) {
  return {.name = name, .meaning = meaning, .unit = unit};
}
constexpr Field null_answer_key(std::string_view name, std::string_view meaning, std::string_view unit) {
  return {.name = name, .meaning = meaning, .unit = unit, .may_be_null = true};
}
constexpr Field optional_key(Field field) {
  field.required = false;
  return field;
}

inline constexpr Field vft_A_key = optional_key(between_key("A", "of log10(viscosity / Pa s) = A + B / (T - T0)", "log10 Pa s", -10, 5));
inline constexpr Field vft_B_key = optional_key(positive_key("B", "of the same law", "K", 1e5));
inline constexpr Field vft_T0_key = optional_key(between_key("T0_C", "of the same law", "°C", coldest_C, 2000));
inline constexpr std::array<std::string_view, 3> vft_keys = {"A", "B", "T0_C"};
inline constexpr std::array<std::string_view, 1> class_keys = {"class"};

inline constexpr std::array<Field, 2> temperature_columns = {between_key("s", "time", "s", -longest_s, longest_s),
                                                             temperature_key("C", "temperature")};
constexpr Field temperature_history_key(std::string_view name, std::string_view meaning) {
  return {.name = name, .meaning = meaning, .shape = Shape::rows, .rising = true, .fewest = 2, .parts = temperature_columns};
}

/// The glass of "A", "B", "T0_C".
physics::Vft vft_of(const Inputs& inputs);
/// A column of temperatures in kelvin.
std::vector<double> kelvins(std::vector<double> celsius);

}  // namespace heatwork::desk
