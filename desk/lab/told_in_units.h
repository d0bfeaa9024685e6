// Sentences told in kelvin and degrees Celsius, for whoever reads temperatures in degrees Fahrenheit.
#pragma once

#include <string>
#include <string_view>

#include "desk/json_value.h"
#include "report/number.h"

namespace heatwork::desk {

/// The text with its temperatures, differences and rates in the asked scale: a temperature by 1.8 and 32, a difference and a rate by 1.8
/// alone. Numbers keep their digits, whole differences get one where they need it. Whatever stands without a unit stays.
[[nodiscard]] std::string told_in_units(report::TemperatureScale scale, std::string_view text);

/// The same for every "sentence" of an answer.
[[nodiscard]] Json sentences_in_units(report::TemperatureScale scale, const Json& answer);

/// In which scale a machine or lab reads: "fahrenheit", or anything else for Celsius.
[[nodiscard]] report::TemperatureScale scale_of(std::string_view units);

}  // namespace heatwork::desk
