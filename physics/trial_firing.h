// Trial firing: the glass of a porcelain or glaze from one firing of it and how the result looked.
#pragma once

#include "physics/equivalent_firing.h"
#include "physics/viscosity.h"

namespace heatwork::physics {

/// Viscosity, with crystals, at which a porcelain fires well with 1 min hold [log10 Pa s]; uncertain by 0.4. Standing: assumed.
/// source: calibrated-here theory: (viscosity.8)
inline constexpr double well_fired_log10_viscosity = 5.1;

/// A class's nominal firing of the piece itself, no lag [s, K]: from 450 C at 55 K/min to its nominal temperature, 60 s there.
/// Range: nominal temperature 450 to 1400 C; else std::domain_error. Standing: assumed. source: chosen-here theory: (heat-work.9)
PieceHistory nominal_firing(double nominal_C);

/// What a trial tells of the glass [log10 Pa s, K, C], and how far it fires above the class [K].
struct TrialGlass {
  Vft vft;
  double shift_K = 0.0;  ///< of the temperature of 10^5.1 Pa s with crystals, against the class
};

/// The glass of a given transition whose heat-work in the trial, lowered by `degree_K`, is the class's own in its nominal firing [K].
/// Range: within 150 K of the class; else std::domain_error. source: computed-here theory: (heat-work.9) (heat-work.10)
TrialGlass glass_of_trial(const PowderClock& of_class, double nominal_C, double glass_transition_C, const PieceHistory& trial,
                          double degree_K);

}  // namespace heatwork::physics
