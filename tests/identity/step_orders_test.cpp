// Methods that step by a fixed length show the order they are said to have.
#include <gtest/gtest.h>

#include <cmath>

#include "../reference/evidence_row.h"
#include "physics/heat_work.h"
#include "physics/layer.h"
#include "physics/powder.h"
#include "physics/rosenbrock.h"
#include "physics/section_heating.h"

namespace heatwork::identity {
namespace {

using namespace physics;
using reference::Evidence;

/// One mass that radiates with surroundings of rising temperature: stiff enough, and not linear.
struct Radiating {
  static constexpr double rate_K4_per_s = 2e-11;
  double inverse_less_slope = 0;
  static double around(double t) { return 700 + 40 * t; }
  void rate(double t, const double* y, double* f) const { f[0] = rate_K4_per_s * (std::pow(around(t), 4) - std::pow(y[0], 4)); }
  void factor(double t, const double* y, const double*, double inverse, double* f_t) {
    inverse_less_slope = inverse + 4 * rate_K4_per_s * std::pow(y[0], 3);
    f_t[0] = rate_K4_per_s * 4 * std::pow(around(t), 3) * 40;
  }
  void solve(double* b) const { b[0] /= inverse_less_slope; }
  static double error_norm(const double*, const double*, const double* e) { return std::abs(e[0]); }
};

double heated(int steps) {
  Radiating system;
  RodasStepper<Radiating> stepper;
  stepper.resize(1);
  stepper.values()[0] = 400;
  const double h = 10.0 / steps;
  for (int i = 0; i < steps; ++i) {
    stepper.prepare(system, i * h);
    stepper.try_step(system, h);
    stepper.accept();
  }
  return stepper.values()[0];
}

TEST(StepOrders, the_method_of_the_load_is_of_order_four) {
  const double exact = heated(4096);
  Evidence row("Rodas on a radiating mass: order of the error from steps halved");
  row.near(std::log2(std::abs(heated(8) - exact) / std::abs(heated(16) - exact)), 4, 0.3);
  row.near(std::log2(std::abs(heated(16) - exact) / std::abs(heated(32) - exact)), 4, 0.3);
}

double radiated_K(std::size_t spaces) {
  const Layer layer{2e-3, 2450, TemperatureProperty::constant(1.2), TemperatureProperty::constant(900), 0};
  SectionAccuracy accuracy;
  accuracy.total_spaces = spaces;
  accuracy.step_tolerance_K = 1e-6;
  SectionHeater heater({&layer, 1}, SectionForm::plate, 0, accuracy);
  Exposure hot;
  hot.time_s = {0, 20};
  hot.surroundings_K = {1100, 1100};
  hot.emissivity = 0.9;
  const std::vector<double> at{20};
  return heater.solve({&hot, 1}, 300, at).surface_K.front();
}

TEST(StepOrders, the_mesh_of_a_section_is_of_order_two) {
  const double exact = radiated_K(256);
  Evidence row("control volumes under radiation: order of the error from spaces halved");
  row.near(std::log2(std::abs(radiated_K(8) - exact) / std::abs(radiated_K(16) - exact)), 2, 0.3);
}

/// Porosity at the end of a hold with the closed stage stepped by a fixed share of a radius.
double closed_porosity(double largest_change) {
  PowderProperties powder;
  powder.vft = {-3.0, 4400.0, 196.7};
  powder.crystal_factor = 1.0;
  powder.coarse_share = 1.0;
  powder.sealing = Sealing::hard;
  const double soft_K = 960;  // the pores are small but still there after the minute
  const std::vector<double> times_s{0, 60}, kelvin{soft_K, soft_K}, vacuum_Pa{0, 0};
  PowderState state = start_powder(powder);
  advance_powder(powder, state, times_s, kelvin, vacuum_Pa, nullptr, {0.1, largest_change});
  return powder_porosity(powder, state);
}

TEST(StepOrders, the_walls_of_closed_pores_are_of_order_two) {
  const double exact = closed_porosity(0.0005);
  RecordProperty("porosity", std::to_string(exact));
  ASSERT_GT(exact, 0.002);
  Evidence row("Rosenbrock of two stages in closed pores: order of the error from steps halved");
  row.near(std::log2(std::abs(closed_porosity(0.08) - exact) / std::abs(closed_porosity(0.04) - exact)), 2, 0.3);
  row.near(std::log2(std::abs(closed_porosity(0.04) - exact) / std::abs(closed_porosity(0.02) - exact)), 2, 0.3);
}

}  // namespace
}  // namespace heatwork::identity
