// A vacuum gauge as it was read, and the absolute pressure it stands for in the air around this furnace.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

/// The air around a furnace.
struct AirAround {
  double pressure_mbar = 0;
  double sd_mbar = 0;
  bool by_barometer = false;  ///< else by the altitude: the weather moves it
  double altitude_m = 0;
};

/// By the barometer where one was read. Errors: std::domain_error where it cannot stand at this altitude.
[[nodiscard]] AirAround air_around(const std::optional<double>& barometer_mbar, double altitude_m);

/// Absolute pressure of a reading [mbar]. `record`: what it is of, "pump-down", for the sentence.
/// Errors: std::domain_error where the gauge cannot show that: another unit than its kind has, or no pressure or more than the air left.
[[nodiscard]] double absolute_mbar(const trade::GaugeSample& sample, trade::GaugeKind gauge, const AirAround& air, std::string_view record);

/// The step the gauge is read in, which shows no more in absolute pressures [mbar].
[[nodiscard]] double step_mbar(std::span<const trade::GaugeSample> samples, const AirAround& air);

/// Standard deviation that the air not being known brings into a pressure this gauge shows [mbar].
[[nodiscard]] double air_doubt_mbar(double absolute_mbar, trade::GaugeKind gauge, const AirAround& air);

}  // namespace heatwork::furnace_care
