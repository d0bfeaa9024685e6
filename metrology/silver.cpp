#include "metrology/silver.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "metrology/water_saturation.h"

namespace heatwork::metrology {
namespace {

constexpr double heat_of_fusion_J_per_mol = 11300.0;
constexpr double gas_constant_J_per_mol_K = 8.314462618;

}  // namespace

double silver_melting_C(double oxygen_atm, double oxygen_solubility) {
  if (!(oxygen_atm >= 0.0 && oxygen_atm <= 1.0)) throw std::domain_error("The pressure of oxygen must be from 0 to 1 atm.");
  if (!(oxygen_solubility >= 0.0 && oxygen_solubility <= 0.1)) throw std::domain_error("The solubility of oxygen must be from 0 to 0.1.");
  const double dissolved = oxygen_solubility * std::sqrt(oxygen_atm);
  const double inverse_K =
      1.0 / (silver_freezing_C + zero_celsius_K) - gas_constant_J_per_mol_K / heat_of_fusion_J_per_mol * std::log1p(-dissolved);
  return 1.0 / inverse_K - zero_celsius_K;
}

bool reaches_melting(std::span<const double> temperatures_C, double melting_C) {
  return std::any_of(temperatures_C.begin(), temperatures_C.end(), [&](double t) { return t >= melting_C; });
}

}  // namespace heatwork::metrology
