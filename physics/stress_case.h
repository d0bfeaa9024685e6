// Layers of tests of cooling stress, by numbers as the trade tells them.
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

/// A glass for zirconia that freezes near 860 K. source: chosen-here [mm]
inline StressLayer glass_layer(double thickness_mm) {
  StressLayer layer = solid(thickness_mm, 65, 0.21, 9.5, 2400, 1.3);
  layer.glass = StressGlass{};
  layer.glass->relaxing = {933.15, 7e4, 0.5, {{0.4, 0.1}, {0.6, 10}}};
  layer.glass->liquid_expansion_per_K = 28.5e-6;
  layer.glass->shear = {{0.3, 0.01}, {0.7, 1}};
  return layer;
}

}  // namespace heatwork::physics
