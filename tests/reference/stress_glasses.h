// Glasses and layers of the handbook's reference cases of cooling.
#pragma once

#include <array>
#include <vector>

#include "physics/cooling_stress.h"

namespace heatwork::reference {

using namespace physics;

inline StressLayer solid(double mm, double GPa, double nu, double ppm, double density, double k, double cp) {
  StressLayer layer;
  layer.heat = {mm * 1e-3, density, TemperatureProperty::constant(k), TemperatureProperty::constant(cp), 0};
  layer.youngs_Pa = GPa * 1e9;
  layer.poisson = nu;
  layer.expansion_per_K = TemperatureProperty::constant(ppm * 1e-6);
  return layer;
}

inline StressGlass soda_lime(double activation_K, double liquid_ppm) {
  StressGlass glass;
  glass.relaxing = {869.0,
                    activation_K,
                    0.5,
                    {{0.05523, 5.965e-4}, {0.08205, 1.077e-2}, {0.1215, 0.1362}, {0.2286, 1.505}, {0.2860, 6.747}, {0.22662, 29.63}}};
  glass.liquid_expansion_per_K = liquid_ppm * 1e-6;
  glass.shear = {{0.05523, 6.658e-5}, {0.08205, 1.197e-3}, {0.1215, 1.514e-2}, {0.2286, 0.1672}, {0.2860, 0.7497}, {0.22662, 3.292}};
  glass.bulk_remaining = 0.18;
  glass.bulk = {{0.0222, 5.009e-5}, {0.0224, 9.945e-4}, {0.0286, 2.022e-3}, {0.2137, 1.925e-2}, {0.3940, 0.1199}, {0.3191, 2.033}};
  return glass;
}

inline StressLayer porcelain(double mm = 1.5, double expansion_ppm = 9.5) {
  StressLayer layer = solid(mm, 65, 0.21, expansion_ppm, 2400, 1.3, 1000);
  layer.glass = soda_lime(7.0e4, 3 * expansion_ppm);
  layer.glass->relaxing.reference_K = 933.15;
  layer.glass->bulk_remaining = 1;
  return layer;
}

inline StressLayer zirconia() {
  return solid(0.7, 205, 0.30, 10.5, 6050, 2.5, 580);
}

struct FloatSet {
  double activation_K, solid_ppm, liquid_ppm;
};
inline constexpr FloatSet set_A = {55000, 9.1, 25.1}, set_B = {76200, 9.0, 32}, set_C = {75510, 9.1, 25.1};

/// Float glass with the handbook's conductivity; its specific heat is taken as 1200 J/(kg K) throughout.
inline StressLayer float_glass(double mm, const FloatSet& set) {
  StressLayer layer = solid(mm, 70, 0.22, set.solid_ppm, 2530, 1.4, 1200);
  layer.heat.conductivity_W_per_mK = TemperatureProperty::polynomial(std::array<double, 2>{0.741 + 8.58e-4 * 273.15, 8.58e-4});
  layer.glass = soda_lime(set.activation_K, set.liquid_ppm);
  return layer;
}

inline std::vector<CoolingReport> cooled(StressForm form, const std::vector<StressLayer>& layers, double start_C, double ambient_C,
                                         double inner, double outer, double radius_mm = 0, const StressAccuracy& accuracy = {0.5, 13, 5},
                                         const std::vector<double>& report_at_s = {}) {
  CoolingCourse course;
  course.inner = FaceCooling{inner, 0};
  course.outer = FaceCooling{outer, 0};
  course.ambient_K = ambient_C + 273.15;
  course.report_at_s = report_at_s;
  return CoolingStress(form, radius_mm / 1000, layers, start_C + 273.15, accuracy).run(course);
}

}  // namespace heatwork::reference
