// Glasses and layers of the handbook's reference cases of cooling.
#pragma once

#include <array>
#include <vector>

#include "physics/stress_case.h"

namespace heatwork::reference {

using namespace physics;

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

/// Specific heat of float glass, with its term over T2 or without.
inline TemperatureProperty float_heat(double inverse_square = -1.8e7) {
  const std::array<double, 2> below{893 + 0.4 * zero_celsius_K, 0.4}, above{1433 + 6.5e-3 * zero_celsius_K, 6.5e-3};
  return TemperatureProperty::stepped(below, inverse_square, 0, 850 - zero_celsius_K, above);
}

/// Float glass with the handbook's conductivity and specific heat.
inline StressLayer float_glass(double mm, const FloatSet& set) {
  StressLayer layer = solid(mm, 70, 0.22, set.solid_ppm, 2530, 1.4, 1200);
  layer.heat.conductivity_W_per_mK = TemperatureProperty::polynomial(std::array<double, 2>{0.741 + 8.58e-4 * zero_celsius_K, 8.58e-4});
  layer.heat.specific_heat_J_per_kgK = float_heat();
  layer.glass = soda_lime(set.activation_K, set.liquid_ppm);
  return layer;
}

/// Lithium disilicate as core of 0.7 mm, and the porcelain of low transition that goes on it.
inline StressLayer disilicate() {
  return solid(0.7, 100, 0.22, 10.2, 2450, 3.0, 1000);
}
inline StressLayer porcelain_for_disilicate(double mm = 1.5) {
  StressLayer layer = solid(mm, 65, 0.22, 9.5, 2450, 1.3, 1000);
  layer.glass = soda_lime(6.5e4, 28.5);
  layer.glass->relaxing.reference_K = reference_of_transition_K(layer.glass->relaxing, 490 + zero_celsius_K, 5.0 / 60);
  layer.glass->bulk_remaining = 1;
  return layer;
}

/// Both faces follow a program, whatever it takes; conduction inside.
inline std::vector<CoolingReport> programmed(StressForm form, const std::vector<StressLayer>& layers, double start_C, double end_C,
                                             double rate_K_per_min, const StressAccuracy& accuracy = {0.5, 13, 5}) {
  constexpr double held = 1e6;
  CoolingCourse course;
  course.inner = course.outer = FaceCooling{held, 0};
  course.around_s = {0, (start_C - end_C) / rate_K_per_min * 60};
  course.around_K = {start_C + zero_celsius_K, end_C + zero_celsius_K};
  return CoolingStress(form, 0, layers, start_C + zero_celsius_K, accuracy).run(course);
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

/// Glass on alumina, the sandwich seal of the handbook: from 618 to 18 C with a hold at 460 C. Reports at the beginning of the hold, at its
/// end, and cold.
inline std::vector<CoolingReport> sandwich_seal(double step_K) {
  StressLayer glass = solid(3.25, 72.548, 0.3, 0, 2500, 1, 1000), alumina = solid(0.25, 373.113, 0.3, 0, 3900, 1, 1000);
  glass.expansion_per_K = TemperatureProperty::polynomial(std::array<double, 2>{64.7e-7, 0.02e-7});
  alumina.expansion_per_K = TemperatureProperty::polynomial(std::array<double, 3>{52.6e-7, 0.119e-7, -1.0e-11});
  glass.glass = StressGlass{};
  glass.glass->relaxing = {
      891.15, 6.45e4, 0.53, {{0.108, 3.0}, {0.443, 0.671}, {0.166, 0.247}, {0.161, 0.091}, {0.046, 0.033}, {0.076, 0.008}}};
  glass.glass->liquid_expansion_per_K = 3.43e-5;
  glass.glass->shear = {{0.422, 0.0689}, {0.423, 0.0065}, {0.155, 0.0001}};
  CoolingCourse course;
  course.time_s = {0, 3160, 17560, 26400};
  course.temperature_K = {891.15, 733.15, 733.15, 291.15};
  course.report_at_s = {3160, 17560};
  return CoolingStress(StressForm::membrane, 0, std::vector{alumina, glass}, 891.15, {step_K, 2, 2}).run(course);
}

}  // namespace heatwork::reference
