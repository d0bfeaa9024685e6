// Readings of a gauge or a display over time as a file has them: "30 s, 300 mbar", "1 min 30 s, 412 °C".
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "quantity/read.h"
#include "trade/check.h"

namespace heatwork::trade {

/// What a vacuum gauge may count in; "%" of a percent gauge.
inline constexpr std::array<std::string_view, 7> gauge_units{"mbar", "hPa", "kPa", "Pa", "mmHg", "inHg", "%"};

/// Readings that one record may hold.
inline constexpr std::size_t most_samples = 2000;

/// One reading from its text; the reading itself is not converted. Errors: the sentence.
[[nodiscard]] quantity::Reading<GaugeSample> read_gauge_sample(std::string_view text);
[[nodiscard]] quantity::Reading<TemperatureSample> read_temperature_sample(std::string_view text);

/// Canonical text, read back to the same reading.
[[nodiscard]] std::string write_sample(const GaugeSample& sample);
[[nodiscard]] std::string write_sample(const TemperatureSample& sample);

}  // namespace heatwork::trade
