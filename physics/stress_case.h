// A layer of tests of cooling stress, by numbers as the trade tells them.
#pragma once

#include "physics/cooling_stress.h"

namespace heatwork::physics {

/// Elastic, with the same properties at every temperature. source: chosen-here [mm, GPa, 1, ppm/K, kg/m3, W/(m K), J/(kg K)]
inline StressLayer solid(double thickness_mm, double GPa, double nu, double ppm, double density = 2400, double k = 1.3, double cp = 1000) {
  StressLayer layer;
  layer.heat = {thickness_mm * 1e-3, density, TemperatureProperty::constant(k), TemperatureProperty::constant(cp), 0};
  layer.youngs_Pa = GPa * 1e9;
  layer.poisson = nu;
  layer.expansion_per_K = TemperatureProperty::constant(ppm * 1e-6);
  return layer;
}

}  // namespace heatwork::physics
