// Arrhenius rates over linear ramps, and what a ramp of one transformation tells. Used by the crystallisation of glass.
#pragma once

#include <span>

namespace heatwork::physics {

/// Molar gas constant, exact by definition [J/(mol K)]. source: si-brochure
inline constexpr double gas_constant_J_per_mol_K = 8.314462618;

/// One step of crystallisation with its sites saturated: dz/dt = k0 exp(-E / (R T)), X = 1 - exp(-z^n).
/// n [1], E [kJ/mol], k0 [1/s]; k0 is not used where the step is complete as delivered (X 1). theory: (crystallisation.1)
struct CrystallisationStep {
  double exponent = 1.0;
  double energy_kJ_per_mol = 0.0;
  double rate_per_s = 0.0;
  bool complete_as_delivered = false;
};

/// Fraction transformed [1]: 1 - exp(-z^n), 1 for infinite z. theory: (crystallisation.1)
/// Range: z >= 0. source: avrami-1939
double transformed_fraction(double z, double exponent);

/// Rate constant k(T) [1/s]. Range: T > 0. source: arrhenius-1889 theory: (crystallisation.2)
double arrhenius_rate_per_s(const CrystallisationStep& step, double temperature_K);

/// Integral of exp(-E / (R T)) dt over a segment with T linear in time [s].
/// Exact by the exponential integral, or a Gauss rule as good where the segment is short.
/// source: abramowitz-stegun theory: (crystallisation.3)
double arrhenius_integral_s(double energy_kJ_per_mol, double duration_s, double first_K, double last_K);

/// exp(x) E1(x) [1]. Range: x > 0; relative error below 1e-13. source: abramowitz-stegun theory: (crystallisation.4)
double scaled_exponential_integral(double x);

/// Argument z of a step on a ramp from cold [1]. Range: rate > 0. source: abramowitz-stegun theory: (crystallisation.3)
double ramp_argument(const CrystallisationStep& step, double rate_K_per_s, double temperature_K);

/// Temperature of fastest transformation on a ramp from cold [K]. Range: rate > 0. source: avrami-1939 theory: (crystallisation.9)
double peak_temperature_K(const CrystallisationStep& step, double rate_K_per_s);

/// Temperature at which a fraction is reached on a ramp from cold [K]. Range: 0 < fraction < 1.
/// source: avrami-1939 theory: (crystallisation.3)
double ramp_temperature_of_fraction_K(const CrystallisationStep& step, double rate_K_per_s, double fraction);

/// k0 that puts the peak condition at an anchor [1/s]: E b / (R Tp^2) exp(E / (R Tp)).
/// Range: all > 0. source: kissinger-1957 theory: (crystallisation.9)
double rate_from_anchor_per_s(double energy_kJ_per_mol, double peak_K, double rate_K_per_s);

/// The anchor that a rate stands for [K]: the temperature that `rate_from_anchor_per_s` turns into the step's k0.
/// Range: rate > 0. source: kissinger-1957 theory: (crystallisation.9)
double anchor_of_rate_K(const CrystallisationStep& step, double rate_K_per_s);

/// Activation energy from peaks at several ramp rates [kJ/mol]: ln(b / Tp^2) on 1 / Tp.
/// Range: at least two different peaks. source: kissinger-1957 theory: (crystallisation.10)
double kissinger_energy_kJ_per_mol(std::span<const double> rates_K_per_s, std::span<const double> peaks_K);

/// The same by ln b on 1 / Tp, slope -1.052 E / R [kJ/mol]. source: ozawa-1965 theory: (crystallisation.10)
double ozawa_energy_kJ_per_mol(std::span<const double> rates_K_per_s, std::span<const double> peaks_K);

/// Time at a constant temperature until a fraction is reached from z = 0 [s]. Range: 0 < fraction < 1.
/// source: avrami-1939 theory: (crystallisation.2)
double isothermal_time_s(const CrystallisationStep& step, double temperature_K, double fraction);

}  // namespace heatwork::physics
