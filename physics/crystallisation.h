// Crystals in a glass-ceramic block through a firing: how much, how large, and what over-firing takes away.
#pragma once

#include <span>
#include <vector>

#include "physics/arrhenius.h"

namespace heatwork::physics {

/// Loss of the last phase by over-firing, and coarsening of its crystals [C, 1/s, um, kJ/mol, um3/s].
/// Standing: assumed, indicative. source: lohbauer-2019, jung-2021 theory: (crystallisation.6) (crystallisation.7)
struct OverFiring {
  double reversal_C = 860.0;
  double liquidus_C = 950.0;
  double reversal_rate_per_s = 1e-3;
  double start_diameter_um = 0.24;
  double coarsening_energy_kJ_per_mol = 300.0;
  double coarsening_rate_um3_per_s = 5e9;
  double largest_diameter_um = 1.08;  ///< end of the span the optical map was measured over; growth stops there
};

/// What crystallises: steps in order, each fed by the one before, and what becomes of the last. theory: (crystallisation.5)
struct CrystallisationProperties {
  std::vector<CrystallisationStep> steps;
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

/// Refuses properties outside their ranges; the sentence names the one and its range. Throws std::domain_error, std::invalid_argument.
/// source: chosen-here
void check_crystallisation(const CrystallisationProperties& properties);

/// The state as delivered: steps complete as delivered have infinite z, the crystals their first diameter.
/// source: jung-2021
CrystallisationState start_crystallisation(const CrystallisationProperties& properties);

/// Carries the crystals through a history linear between points [s, K]. `trace` may be null; `state` changes only when all is done.
/// Exact for a step fed by a complete one. source: avrami-1939, lohbauer-2019, jung-2021. Throws std::domain_error or std::invalid_argument
/// with one sentence. theory: (crystallisation.1) (crystallisation.3) (crystallisation.5) (crystallisation.6) (crystallisation.7)
void advance_crystallisation(const CrystallisationProperties& properties, CrystallisationState& state, std::span<const double> times_s,
                             std::span<const double> temperatures_K, CrystallisationTrace* trace = nullptr);

/// Net fraction of the last step, less its loss [1]. source: chosen-here theory: (crystallisation.6)
double net_fraction(const CrystallisationProperties& properties, const CrystallisationState& state);

/// Share of the crystals that is stable [1]: 1 to T_rev, falling linearly to 0 at T_liq. source: lohbauer-2019 theory: (crystallisation.6)
double stable_fraction(const OverFiring& over_firing, double temperature_K);

/// Transmittance at 550 nm [%] of a mean crystal diameter: 34 - 7 ln(d / 0.24 um) / ln(1.08 / 0.24).
/// Range: 0.24 to 1.08 um, the span measured; throws std::domain_error beyond. source: jung-2021 theory: (crystallisation.8)
double transmittance_550nm_percent(double crystal_um);

/// Time of a history spent between two temperatures [min], linear between points; for leucite, which drifts at 650 to 850 C.
/// Range: low < high. source: khajotia-1999 theory: (crystallisation.11)
double minutes_between(std::span<const double> times_s, std::span<const double> temperatures_K, double low_K, double high_K);

}  // namespace heatwork::physics
