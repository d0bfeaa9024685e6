// Equivalent firing: the shift of temperature, or of hold, that makes one history of a piece do the work of another.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "physics/crystallisation.h"
#include "physics/viscosity.h"
#include "physics/zirconia_sintering.h"

namespace heatwork::physics {

/// Widest shift looked for, either way [K], and longest time added to a hold [s]. Standing: assumed. source: chosen-here
inline constexpr double widest_equivalent_shift_K = 150.0;
inline constexpr double longest_equivalent_hold_s = 3600.0;

/// Temperatures of a piece, linear between points; two at one time are a jump.
struct PieceHistory {
  std::vector<double> times_s;
  std::vector<double> temperatures_K;
};

/// What makes the heat-work of a powder or glaze.
struct PowderClock {
  Vft vft;
  double crystal_factor = 1.0;
  double surface_tension_N_per_m = 0.0;
  double particle_radius_um = 0.0;
};

/// The model whose quantity decides whether two firings are alike: heat-work, z of the last step, or ln Theta. theory: (heat-work.6)
using DecidingModel = std::variant<PowderClock, CrystallisationProperties, MasterCurve>;

/// The deciding quantity after a history [1]: Theta of a powder or glaze, z of the last step of what crystallises, ln Theta of zirconia.
/// Errors: std::domain_error, std::invalid_argument of the model. source: scherer-1977, avrami-1939, su-johnson-1996 theory: (heat-work.6)
double deciding_quantity(const DecidingModel& model, const PieceHistory& history);

/// The whole history warmer by a constant [s, K].
/// Range: no point at or below 0 K; else std::domain_error. source: chosen-here theory: (heat-work.7)
PieceHistory shifted(PieceHistory history, double shift_K);

/// Time put in at, or (negative) cut back from, the end of a hold of a history [s, K]; what comes later moves along.
/// Range: the hold within the history, not more cut than it lasts; else std::domain_error. source: chosen-here theory: (heat-work.8)
PieceHistory with_hold_changed(const PieceHistory& history, double from_s, double to_s, double change_s);

/// How the history compares with the reference: its quantity, and what would make the reference do the same; nothing beyond the bounds.
struct EquivalentFiring {
  double quantity = 0.0;
  std::optional<double> shift_K;  ///< within 150 K either way
  std::optional<double> hold_s;   ///< from minus the whole hold to plus 60 min
};

/// The shift and the time of hold that, given to the reference, make it do the work of the history [1, K, s].
/// No load between. Errors: as above, and std::domain_error where the quantity is no finite number.
/// source: computed-here theory: (heat-work.7) (heat-work.8)
EquivalentFiring equivalent_firing(const DecidingModel& model, const PieceHistory& history, const PieceHistory& reference,
                                   double reference_hold_from_s, double reference_hold_to_s);

}  // namespace heatwork::physics
