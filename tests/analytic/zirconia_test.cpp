// Sintering of zirconia against exact solutions: a steady ramp, a hold, and quadrature of a path of any shape.
#include <array>
#include <cmath>
#include <numbers>

#include "../reference/evidence_row.h"
#include "physics/arrhenius.h"
#include "physics/zirconia_sintering.h"

namespace heatwork::analytic {
namespace {

using namespace physics;
using reference::Evidence;

constexpr double energy_kJ_per_mol = 746.0;

double log_theta_of(const std::vector<double>& times_s, const std::vector<double>& temperatures_K) {
  return log_theta_of_history(energy_kJ_per_mol, times_s, temperatures_K);
}

TEST(ZirconiaExact, AHoldIsTimeOverTemperature) {
  Evidence row("closed form: ln(t / T) - E / RT", "ln s/K");
  for (const double kelvin : {1300.0, 1600.0, 1900.0})
    row.near(log_theta_of({0.0, 7200.0}, {kelvin, kelvin}),
             std::log(7200.0 / kelvin) - energy_kJ_per_mol * 1e3 / (gas_constant_J_per_mol_K * kelvin), 1e-12);
}

TEST(ZirconiaExact, ARampFromColdIsTheExponentialIntegral) {
  Evidence row("closed form: ln(E1(E / RT) / rate)", "ln s/K");
  for (const double kelvin : {1300.0, 1600.0, 1900.0}) {
    const double rate = 0.12;
    row.near(log_theta_of({0.0, (kelvin - 250.0) / rate}, {250.0, kelvin}), ramp_log_theta(energy_kJ_per_mol, rate, kelvin), 1e-12);
    // E1 by its own integral of exp(-x s) / s from 1, midpoint rule in ln s.
    const double x = energy_kJ_per_mol * 1e3 / (gas_constant_J_per_mol_K * kelvin);
    double sum = 0.0;
    constexpr int points = 200000;
    constexpr double reach = 1.0;
    for (int i = 0; i < points; ++i) sum += std::exp(-x * (std::exp(reach * (i + 0.5) / points) - 1.0)) * reach / points;
    row.near(ramp_log_theta(energy_kJ_per_mol, rate, kelvin), std::log(sum) - x - std::log(rate), 1e-8);
  }
}

TEST(ZirconiaExact, APathOfAnyShapeMeetsItsQuadrature) {
  // A hump: half a sine, cut in straight segments ever finer. Order two in the segments, for the segments' own straightness.
  const auto at_K = [](double share) { return 1000.0 + 650.0 * std::sin(std::numbers::pi * share); };
  constexpr double duration_s = 9000.0;
  constexpr int points = 400000;
  double sum = 0.0;
  for (int i = 0; i < points; ++i) {
    const double kelvin = at_K((i + 0.5) / points);
    sum += std::exp(-energy_kJ_per_mol * 1e3 / gas_constant_J_per_mol_K * (1.0 / kelvin - 1.0 / 1650.0)) / kelvin * duration_s / points;
  }
  const double exact = std::log(sum) - energy_kJ_per_mol * 1e3 / (gas_constant_J_per_mol_K * 1650.0);
  std::array<double, 3> error{};
  for (std::size_t level = 0; level < error.size(); ++level) {
    const int segments = 100 << level;
    std::vector<double> times_s, temperatures_K;
    for (int i = 0; i <= segments; ++i) {
      times_s.push_back(duration_s * i / segments);
      temperatures_K.push_back(at_K(static_cast<double>(i) / segments));
    }
    error[level] = std::abs(log_theta_of(times_s, temperatures_K) - exact);
  }
  Evidence row("midpoint rule on 400 000 points; order of the segments", "1");
  row.near(std::log2(error[0] / error[1]), 2.0, 0.1);
  row.near(std::log2(error[1] / error[2]), 2.0, 0.1);
  row.in("ln s/K");
  row.near(error[2], 0.0, 2e-3);
}

}  // namespace
}  // namespace heatwork::analytic
