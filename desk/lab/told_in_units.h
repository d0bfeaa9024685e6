// Sentences told in kelvin and degrees Celsius, for whoever reads temperatures in degrees Fahrenheit.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "desk/errors.h"
#include "desk/json_value.h"
#include "report/number.h"

namespace heatwork::desk {

/// The text with its temperatures, differences and rates in the asked scale: a temperature by 1.8 and 32, a difference and a rate by 1.8
/// alone. Numbers keep their digits, whole differences get one where they need it. Whatever stands without a unit, or in quotes, stays.
[[nodiscard]] std::string told_in_units(report::TemperatureScale scale, std::string_view text);

/// The same for every "sentence" of an answer.
[[nodiscard]] Json sentences_in_units(report::TemperatureScale scale, const Json& answer);

/// Does a work; what it refuses of a value is told in that scale. Errors: Failure, and whatever the work throws else.
template <class Work>
auto refusing_in(report::TemperatureScale scale, Work&& work) {
  if (scale == report::TemperatureScale::celsius) return work();
  try {
    return work();
  } catch (const Failure& failure) {
    if (failure.error() != ErrorWord::bad_value) throw;
    throw Failure(failure.error(), failure.what(), scale);
  } catch (const std::domain_error& refused) {
    throw Failure(ErrorWord::bad_value, refused.what(), scale);
  }
}

/// In which scale a machine or lab reads: "fahrenheit", or anything else for Celsius.
[[nodiscard]] report::TemperatureScale scale_of(std::string_view units);

}  // namespace heatwork::desk
