// Stresses of a piece that the bench has changed: ground thinner, laid on thicker, or with a new layer.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "physics/cooling_stress.h"

namespace heatwork::physics {

/// Where a layer comes from.
struct LayerOrigin {
  std::optional<std::size_t> was;  ///< its place among the layers as they were, counted from the inside; absent: laid on anew
  double ground_inside_m = 0.0;    ///< taken off at its inside face; what its thickness then lacks was taken off outside
};

/// A piece as it was: the layers of a form, with which accuracy they were followed, and their state [m].
struct StressedPiece {
  StressForm form = StressForm::plate_free;
  double inner_radius_m = 0.0;
  std::span<const StressLayer> layers;
  StressAccuracy accuracy;
  std::span<const double> state;
};

/// State of the piece as the bench leaves it, for the same form, forces balanced anew at its one temperature [K, 1/m, Pa].
/// Structure and stress of what is still there stand at their places; a layer laid on anew, or thicker than it was, is free of stress
/// throughout, its structure that of its reference: it must become liquid before it is looked at. Range: the piece is of one temperature; a
/// layer that was is of the same spectra as it is. source: chosen-here. Throws std::domain_error with one sentence.
/// theory: (cooling-stress.19)
std::vector<double> carried_stress(const StressedPiece& was, double inner_radius_m, std::span<const StressLayer> layers,
                                   std::span<const LayerOrigin> origins, const StressAccuracy& accuracy);

}  // namespace heatwork::physics
