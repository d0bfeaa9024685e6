#include "physics/cooling_error.h"

#include <algorithm>
#include <cmath>

#include "physics/cooling_profile.h"

namespace heatwork::physics {

namespace {
constexpr double caution = 2.0;     // a maximum over time between two steps may hide from both runs
constexpr double least_told = 1e4;  // Pa
}  // namespace

double largest_change_Pa(const CoolingReport& one, const CoolingReport& other) {
  double most = 0.0;
  for (std::size_t l = 0; l < one.layers.size(); ++l)
    for (const auto figure : layer_stresses) most = std::max(most, std::abs(one.layers[l].*figure - other.layers[l].*figure));
  return most;
}

StressAccuracy coarser(const StressAccuracy& accuracy) {
  return {2.0 * accuracy.step_K, std::max<std::size_t>(3, accuracy.glass_points - std::min<std::size_t>(2, accuracy.glass_points)),
          std::max<std::size_t>(3, accuracy.elastic_points - std::min<std::size_t>(1, accuracy.elastic_points))};
}

double told_error_Pa(const CoolingReport& fine, const CoolingReport& coarse) {
  return std::max(least_told, caution * largest_change_Pa(fine, coarse));
}

EstimatedCooling estimated_cooling(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, double start_K,
                                   const CoolingCourse& course, const StressAccuracy& accuracy) {
  EstimatedCooling out{CoolingStress(form, inner_radius_m, layers, start_K, accuracy).run(course), 0.0};
  CoolingStress second(form, inner_radius_m, layers, start_K, coarser(accuracy));
  if (course.profile) {
    CoolingCourse rougher = course;
    rougher.profile = thinned(*course.profile);
    out.error_Pa = told_error_Pa(out.reports.back(), second.run(rougher).back());
  } else {
    out.error_Pa = told_error_Pa(out.reports.back(), second.run(course).back());
  }
  return out;
}

}  // namespace heatwork::physics
