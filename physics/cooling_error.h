// How far stresses of a cooling are off: the same course once more, coarser.
#pragma once

#include <span>
#include <vector>

#include "physics/cooling_stress.h"

namespace heatwork::physics {

/// Reports of a course, and twice by how much the stresses at its end change in a run of twice the step and fewer points,
/// 0.01 MPa at least [Pa].
struct EstimatedCooling {
  std::vector<CoolingReport> reports;
  double error_Pa = 0.0;
};

/// Largest difference of a stress told, of all layers [Pa]. Range: reports of the same layers. source: chosen-here
double largest_change_Pa(const CoolingReport& one, const CoolingReport& other);

/// Of the second run: twice the step and fewer points. source: chosen-here theory: (cooling-stress.14)
StressAccuracy coarser(const StressAccuracy& accuracy);

/// The error told of the finer of two runs [Pa]. source: chosen-here theory: (cooling-stress.14)
double told_error_Pa(const CoolingReport& fine, const CoolingReport& coarse);

/// Cools a piece that is of one temperature, in equilibrium and free of stress, and tells the error; the second run has every second row
/// of a profile. source: chosen-here. Throws as CoolingStress. theory: (cooling-stress.14) (cooling-stress.18)
EstimatedCooling estimated_cooling(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, double start_K,
                                   const CoolingCourse& course, const StressAccuracy& accuracy = {});

}  // namespace heatwork::physics
