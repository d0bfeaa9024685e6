// A pump emptying a chamber: its time constant, its limit, and whether it is as it was.
#pragma once

#include <optional>
#include <span>

namespace heatwork::metrology {

/// p = ultimate + (start - ultimate) exp(-t / time constant).
struct PumpDown {
  double time_constant_s;
  double ultimate_mbar;
};

/// Pressure while a pump of constant speed empties a chamber [mbar].
/// source: jousten-vacuum theory: (vacuum.1)
double pumped_pressure_mbar(const PumpDown& pump, double start_mbar, double time_s);

/// Time until a pressure is reached [s].
/// Range: ultimate below the pressure asked for, that not above the start; else std::domain_error. source: jousten-vacuum theory:
/// (vacuum.2)
double pumping_time_s(const PumpDown& pump, double start_mbar, double end_mbar);

/// Speed that takes a volume from one pressure to another, limit far below both [units of volume / time].
/// Range: all above 0, start above end; else std::domain_error. source: jousten-vacuum theory: (vacuum.2)
double pumping_speed(double volume, double start_mbar, double end_mbar, double time);

/// Fits a record of falling pressure [s, mbar].
/// From 300 mbar down where there are at least 4 such samples, else the whole. Range: 3 samples or more, times that rise, a record of one
/// time constant at least; else std::domain_error. source: jousten-vacuum theory: (vacuum.3)
PumpDown fit_pump_down(std::span<const double> times_s, std::span<const double> pressures_mbar);

/// Standard deviations of such a fit, from its misses and the step the record is written in.
struct PumpDownDoubt {
  double time_constant_sd_s;
  double ultimate_sd_mbar;
};

/// Doubt of a fit to the record it was made of, `step_mbar` that of the display (absent: found in the record); nothing with fewer than 4
/// samples in what was fitted [s, mbar]. source: jousten-vacuum theory: (vacuum.3)
std::optional<PumpDownDoubt> pump_down_doubt(std::span<const double> times_s, std::span<const double> pressures_mbar, const PumpDown& fit,
                                             std::optional<double> step_mbar = std::nullopt);

/// How many times its usual time constant makes a pump slow. Standing: assumed. source: chosen-here
inline constexpr double slow_pump_share = 1.25;

/// Medians of time constant and limit over earlier records [s, mbar].
/// Range: 1 record or more, else std::domain_error. source: chosen-here
PumpDown usual_pump(std::span<const PumpDown> earlier);

enum class PumpChange { as_before, weak_pump, leak_or_water, wet_pump, weak_and_leaking, unknown };

/// A pump against its own history; `after_warm_run` is a repeat with the pump warm and the chamber dry [s, mbar].
/// Time constant a quarter above its median: weak pump or narrow line. Limit 3 mbar above: leak or water, and where the repeat is back,
/// a wet pump. Fewer than 2 earlier records: unknown. source: chosen-here
PumpChange pump_change(const PumpDown& now, std::span<const PumpDown> earlier, const std::optional<PumpDown>& after_warm_run);

}  // namespace heatwork::metrology
