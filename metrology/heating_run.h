// A run at full power: gain and loss of a muffle, and whether its element, its insulation or its mains are what they were.
#pragma once

#include <optional>
#include <span>

namespace heatwork::metrology {

/// dT/dt = gain - loss (T - room).
struct GainAndLoss {
  double gain_K_per_s;
  double loss_per_s;
};

/// Temperature the muffle would end at [C].
/// source: incropera theory: (heating-run.2)
double heating_limit_C(const GainAndLoss& muffle, double room_C);

/// Time from one temperature to another at full power [s].
/// Range: limit above the higher temperature, else std::domain_error. source: incropera theory: (heating-run.3)
double heating_time_s(const GainAndLoss& muffle, double room_C, double from_C, double to_C);

enum class MuffleVerdict { healthy, element_ageing, replace_element, insulation, held_back, cannot_tell };

struct HeatingRun {
  GainAndLoss measured;  ///< at the mains of the run
  double gain_sd, loss_sd;
  double gain_at_nominal_K_per_s;
  double limit_C;  ///< at the mains of the run
  std::optional<double> power_health, loss_health;
  std::optional<double> held_until_C;    ///< where a capped rate ends
  std::optional<double> moisture_dip_K;  ///< what the muffle fell behind from 60 to 150 °C
  MuffleVerdict verdict;
};

/// Fits a record of a run at full power and judges it against the muffle when new at nominal mains [s, C].
/// The first 60 s and what is below 200 °C are left out. Range: 8 samples in what is left, over 60 s and 100 K, times that rise,
/// mains 80 to 130 % of nominal; else std::domain_error. source: incropera theory: (heating-run.1) (heating-run.4) (heating-run.5)
HeatingRun judge_heating_run(std::span<const double> times_s, std::span<const double> temperatures_C, double room_C, double mains_V,
                             double nominal_V, const std::optional<GainAndLoss>& when_new);

/// Water whose boiling off held a muffle back [g].
/// heat capacity times dip over 2.45 MJ/kg. Range: both 0 or more. source: field-memory theory: (heating-run.6)
double water_of_dip_g(double dip_K, double heat_capacity_J_per_K);

/// Hot over cold resistance of iron-chromium-aluminium wire [1].
/// Table by 100 K, linear between. Range: 20 to 1400 °C, else std::domain_error. source: fecral-datasheet
double element_resistance_factor(double temperature_C);

/// Power of an element [W].
/// V^2 / (R20 factor). Range: all above 0, else std::domain_error. source: fecral-datasheet theory: (heating-run.7)
double element_power_W(double mains_V, double resistance_at_20_ohm, double factor);

/// Time constant and dead time read from a step response [s].
struct StepResponse {
  double time_constant_s, dead_time_s;
};

/// From the times at 35.3 and 85.3 % of the step, Sundaresan and Krishnaswamy [s].
/// source: field-memory theory: (heating-run.8)
StepResponse step_by_two_late_times(double time_353_s, double time_853_s);

/// From the times at 28.3 and 63.2 % of the step, Smith [s].
/// source: field-memory theory: (heating-run.9)
StepResponse step_by_two_early_times(double time_283_s, double time_632_s);

}  // namespace heatwork::metrology
