#include "physics/cooling_error.h"

#include <algorithm>
#include <cmath>

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

EstimatedCooling estimated_cooling(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, double start_K,
                                   const CoolingCourse& course, const StressAccuracy& accuracy) {
  const StressAccuracy coarse{2.0 * accuracy.step_K,
                              std::max<std::size_t>(3, accuracy.glass_points - std::min<std::size_t>(2, accuracy.glass_points)),
                              std::max<std::size_t>(3, accuracy.elastic_points - std::min<std::size_t>(1, accuracy.elastic_points))};
  EstimatedCooling out{CoolingStress(form, inner_radius_m, layers, start_K, accuracy).run(course), 0.0};
  const CoolingReport other = CoolingStress(form, inner_radius_m, layers, start_K, coarse).run(course).back();
  out.error_Pa = std::max(least_told, caution * largest_change_Pa(out.reports.back(), other));
  return out;
}

}  // namespace heatwork::physics
