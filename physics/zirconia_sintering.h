// Sintering of zirconia with 3 mol % yttria: density by the master sintering curve, and grain growth.
#pragma once

#include <span>
#include <vector>

namespace heatwork::physics {

/// The master sintering curve: density over ln Theta [kJ/mol, 1, ln(s/K), 1, 1, 1].
/// Standing: computed, a fit to mazaheri-2009 at 2 and 20 K/min. theory: (zirconia.1) (zirconia.2)
struct MasterCurve {
  double energy_kJ_per_mol = 746.0;
  double green_density = 0.44385;  ///< relative, before sintering
  double a = -59.02543;
  double b = 0.95537;
  double nu = 0.37670;
  double cap = 0.990;  ///< relative density is not taken beyond it. Standing: assumed, 0.985 to 0.995
};

/// Growth of the grains [1, kJ/mol, um^n/s, um]. Standing: exponent and first size assumed, energy measured, rate computed.
/// source: mazaheri-2009, nogueira-luz-2021 theory: (zirconia.4)
struct GrainGrowth {
  double exponent = 4.0;
  double energy_kJ_per_mol = 546.0;
  double rate_per_s = 5.69689e11;
  double start_um = 0.20;
};

struct ZirconiaProperties {
  MasterCurve curve;
  GrainGrowth grain;
};

/// What the curve was measured over: heating at 2 to 20 K/min, density 0.45 to 0.95 [K/s, 1]. Standing: measured. source: mazaheri-2009
inline constexpr double slowest_measured_K_per_s = 2.0 / 60.0;
inline constexpr double fastest_measured_K_per_s = 20.0 / 60.0;
inline constexpr double densest_measured = 0.95;
/// Hottest sintering of which anything is published [C]. Standing: measured. source: stawarczyk-2013
inline constexpr double hottest_sintering_C = 1700.0;

/// Carried through a firing and on into the next.
struct ZirconiaState {
  double log_theta = 0.0;  ///< ln of Theta in s/K; minus infinity before any heat
  double grain_um = 0.0;   ///< [um]
  double highest_K = 0.0;  ///< [K]
  double log_rate =
      0.0;  ///< ln of the steady rate in K/s that does the same work on the way to the hottest moment; infinite before any heat
  bool halfway_passed = false;  ///< `log_rate` stands: the density has passed the middle of the span measured
  bool operator==(const ZirconiaState&) const = default;
};

/// The state as plain numbers in a fixed order, for hashes and kept states [ln(s/K), um, K, ln(K/s), 1]. source: chosen-here
std::vector<double> canonical_values(const ZirconiaState& state);
/// The same back. Errors: std::invalid_argument where their number is another. source: chosen-here
ZirconiaState zirconia_state_from(std::span<const double> values);

/// Values at every history point.
struct ZirconiaTrace {
  std::vector<double> density;   ///< relative [1]
  std::vector<double> grain_um;  ///< [um]
};

/// How far the curve may be trusted for a way of heating.
enum class CurveStanding {
  measured,      ///< heated as it was measured
  extrapolated,  ///< up to ten times slower or faster
  outside        ///< beyond that: nothing is known
};

/// Refuses properties outside their ranges; the sentence names the one and its range. Throws std::domain_error. source: chosen-here
void check_zirconia(const ZirconiaProperties& properties);

/// The state of a pre-sintered piece before any heat. source: su-johnson-1996
ZirconiaState start_zirconia(const ZirconiaProperties& properties);

/// Carries density and grains through a history linear between points [s, K]; `trace` may be null; `state` changes only when all is done.
/// Exact on every segment. Range: up to 1700 C, else std::domain_error. source: su-johnson-1996 theory: (zirconia.1) (zirconia.3)
/// (zirconia.4)
void advance_zirconia(const ZirconiaProperties& properties, ZirconiaState& state, std::span<const double> times_s,
                      std::span<const double> temperatures_K, ZirconiaTrace* trace = nullptr);

/// ln Theta of a steady ramp from cold [ln(s/K)]: Theta = E1(Q / (R T)) / rate. Range: all > 0. source: su-johnson-1996 theory:
/// (zirconia.3)
double ramp_log_theta(double energy_kJ_per_mol, double rate_K_per_s, double temperature_K);

/// ln Theta after a history linear between points [ln(s/K)]; minus infinity where no time passes. Range: any temperature above 0 K.
/// source: su-johnson-1996 theory: (zirconia.1) (zirconia.3)
double log_theta_of_history(double energy_kJ_per_mol, std::span<const double> times_s, std::span<const double> temperatures_K);

/// Relative density at ln Theta, not beyond the cap [1]. source: su-johnson-1996 theory: (zirconia.2)
double sintered_density(const MasterCurve& curve, double log_theta);

/// ln Theta at a relative density between the green one and 1 [ln(s/K)]. source: computed-here theory: (zirconia.2)
double log_theta_of_density(const MasterCurve& curve, double density);

/// How the piece was heated while it densified, against what the curve was measured over. source: chosen-here theory: (zirconia.5)
CurveStanding curve_standing(const ZirconiaState& state);

/// The same as a steady rate [K/s]; infinite before any heat. source: chosen-here theory: (zirconia.5)
double densifying_rate_K_per_s(const ZirconiaState& state);

/// How far off the density may be, either way [1]: 0.015 as measured, 0.05 extrapolated, infinite outside.
/// Standing: computed and assumed. source: computed-here theory: (zirconia.5)
double density_error(CurveStanding standing);

}  // namespace heatwork::physics
