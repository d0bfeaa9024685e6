// A pumped chamber shut off: whether what comes in is a leak, gas out of the lining, or water.
#pragma once

#include <optional>
#include <span>

namespace heatwork::metrology {

enum class RiseVerdict { leak, outgassing, water, mixed, undecided };

/// What a record says; numbers are absent where the record does not hold them.
struct Rise {
  RiseVerdict verdict = RiseVerdict::undecided;
  std::optional<double> leak_mbar_per_s;
  std::optional<double> leak_low_mbar_per_s, leak_high_mbar_per_s;  ///< 95 %
  std::optional<double> outgassing_mbar, outgassing_time_s;
  std::optional<double> plateau_mbar;
  std::optional<double> late_over_early;  ///< slope of the last fifth over that of the first
  bool rises = false;                     ///< false where a constant describes the record best
};

/// Fits p0 + s t + A (1 - exp(-t / tau)) or fewer of its terms, chosen by BIC, and judges [s, mbar].
/// `room_C` is that of the coldest wet surface; `step_mbar` that of the display, else found in the record.
/// Range: 2 samples or more, times that rise, pressures from 0, room 0 to 60 °C; else std::domain_error. source: jousten-vacuum
/// theory: (vacuum.4) (vacuum.5) (vacuum.6) (vacuum.7) (vacuum.8)
Rise judge_rise(std::span<const double> times_s, std::span<const double> pressures_mbar, double room_C,
                std::optional<double> step_mbar = std::nullopt);

/// The step a record is written in: the largest of 10, 5, 2, 1, 0.5 ... that all its values are multiples of [mbar].
/// source: computed-here
double resolution_of(std::span<const double> values);

}  // namespace heatwork::metrology
