#pragma once

#include <span>
#include <utility>
#include <vector>

namespace heatwork::physics {

/// Molar gas constant, defined [J/(mol K)]. source: si-2019
inline constexpr double gas_constant_J_per_mol_K = 8.314462618;

/// One step of crystallisation with sites saturated: dz/dt = k0 exp(-E / (R T)), X = 1 - exp(-z^n). theory: (crystallisation.1)
struct CrystallisationStep {
  double exponent = 1.0;               ///< n [1]
  double energy_kJ_per_mol = 0.0;      ///< E
  double rate_per_s = 0.0;             ///< k0; not used when complete
  bool complete_as_delivered = false;  ///< X = 1 and z without number
};

/// Loss of the last phase by over-firing and coarsening of the crystals. Standing: assumed. theory: (crystallisation.6) (crystallisation.7)
struct OverFiring {
  double reversal_C = 860.0;
  double liquidus_C = 950.0;
  double reversal_rate_per_s = 1e-3;
  double start_diameter_um = 0.24;
  double coarsening_energy_kJ_per_mol = 300.0;
  double coarsening_rate_um3_per_s = 5e9;
};

struct CrystallisationProperties {
  std::vector<CrystallisationStep> steps;  ///< in order; each is fed by the one before
  OverFiring over_firing;
};

/// Carried through a firing and on into the next; z of a complete step is infinity.
struct CrystallisationState {
  std::vector<double> z;    ///< argument of each step [1]
  double loss = 0.0;        ///< Y of the last step [1]
  double crystal_um = 0.0;  ///< mean diameter [um]
  double highest_K = 0.0;
  bool operator==(const CrystallisationState&) const = default;
};

/// Values at every history point.
struct CrystallisationTrace {
  std::vector<double> fraction;    ///< X of the last step less its loss [1]
  std::vector<double> z;           ///< of the last step [1]
  std::vector<double> crystal_um;  ///< [um]
};

void check_crystallisation(const CrystallisationProperties& properties);
CrystallisationState start_crystallisation(const CrystallisationProperties& properties);

/// Carries the crystals through a history linear between points [s, K]. `trace` may be null; `state` changes only when all is done.
/// Exact for a step fed by a complete one. Throws std::domain_error or std::invalid_argument with one sentence.
/// theory: (crystallisation.1) (crystallisation.3) (crystallisation.5) (crystallisation.6) (crystallisation.7)
void advance_crystallisation(const CrystallisationProperties& properties, CrystallisationState& state, std::span<const double> times_s,
                             std::span<const double> temperatures_K, CrystallisationTrace* trace = nullptr);

/// Fraction of a step [1]: 1 - exp(-z^n), 1 for infinite z; and the net fraction of the last step, less its loss. theory:
/// (crystallisation.1)
double transformed_fraction(double z, double exponent);
double net_fraction(const CrystallisationProperties& properties, const CrystallisationState& state);

/// Rate constant k(T) [1/s]. theory: (crystallisation.2)
double arrhenius_rate_per_s(const CrystallisationStep& step, double temperature_K);

/// Integral of exp(-E / (R T)) dt over a segment with T linear in time [s]: exact by the exponential integral. theory: (crystallisation.3)
double arrhenius_integral_s(double energy_kJ_per_mol, double duration_s, double first_K, double last_K);

/// exp(x) E1(x) [1], x > 0. theory: (crystallisation.4)
double scaled_exponential_integral(double x);

/// Share of the equilibrium crystals that is stable [1]: 1 to T_rev, falling linearly to 0 at T_liq. theory: (crystallisation.6)
double stable_fraction(const OverFiring& over_firing, double temperature_K);

/// Transmittance at 550 nm [%] of a mean crystal diameter: 34 - 7 ln(d / 0.24 um) / ln(1.08 / 0.24). source: jung-2021 theory:
/// (crystallisation.8) Range: diameters 0.24 to 1.08 um are measured; beyond them the ends are kept by the coarsening law itself.
double transmittance_550nm_percent(double crystal_um);

/// Temperature of fastest transformation on a ramp from cold [K]. Range: rate > 0. theory: (crystallisation.9)
double peak_temperature_K(const CrystallisationStep& step, double rate_K_per_s);

/// Temperature at which a fraction is reached on a ramp from cold [K]. Range: 0 < fraction < 1. theory: (crystallisation.3)
double ramp_temperature_of_fraction_K(const CrystallisationStep& step, double rate_K_per_s, double fraction);

/// k0 that puts the peak condition at an anchor [1/s]: E b / (R Tp^2) exp(E / (R Tp)). theory: (crystallisation.9)
double rate_from_anchor_per_s(double energy_kJ_per_mol, double peak_K, double rate_K_per_s);

/// Activation energy from peaks at several ramp rates [kJ/mol]. theory: (crystallisation.10)
double kissinger_energy_kJ_per_mol(std::span<const double> rates_K_per_s, std::span<const double> peaks_K);
double ozawa_energy_kJ_per_mol(std::span<const double> rates_K_per_s, std::span<const double> peaks_K);

/// Time at a constant temperature until a fraction is reached from z = 0 [s]. theory: (crystallisation.2)
double isothermal_time_s(const CrystallisationStep& step, double temperature_K, double fraction);

/// Time of a history spent between two temperatures [min], linear between points; for leucite, which drifts at 650 to 850 C.
/// Range: low < high. theory: (crystallisation.11)
double minutes_between(std::span<const double> times_s, std::span<const double> temperatures_K, double low_K, double high_K);

}  // namespace heatwork::physics
