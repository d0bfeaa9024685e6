// The readings of a check: lists of samples as fields, and what readings must be together. Included by the field tables' own sources only.
#pragma once

#include <string_view>
#include <vector>

#include "trade/check.h"
#include "trade/field.h"

namespace heatwork::trade {

/// A list of texts, each a time and what was shown then.
void samples(Fields& fields, std::string_view key, std::vector<GaugeSample>& list, std::string_view meaning);
void samples(Fields& fields, std::string_view key, std::vector<TemperatureSample>& list, std::string_view meaning);

/// That clocks go forwards, a place has one tab, a voltage its cold junction. Errors: Mistake.
void check_readings(const Check& check);

}  // namespace heatwork::trade
