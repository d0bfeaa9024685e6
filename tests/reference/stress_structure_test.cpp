// Where the structure of a cooled glass freezes.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "evidence_row.h"
#include "physics/layer.h"
#include "physics/structural_relaxation.h"

namespace heatwork {
namespace {

physics::RelaxingGlass float_glass(double activation_K) {
  return {869.0,
          activation_K,
          0.5,
          {{0.05523, 5.965e-4}, {0.08205, 1.077e-2}, {0.1215, 0.1362}, {0.2286, 1.505}, {0.2860, 6.747}, {0.22662, 29.63}}};
}

TEST(stress, V7) {
  const auto glass = float_glass(76200);
  constexpr std::array<double, 5> rates_K_per_min = {0.5, 2, 5, 30, 300}, expected_C = {517.9, 529.3, 536.9, 552.4, 573.1};
  reference::Evidence evidence("float glass, set B, cooled at constant rate from 150 K above the reference", "C");
  std::array<double, 5> frozen_K{};
  for (std::size_t i = 0; i < rates_K_per_min.size(); ++i) {
    frozen_K[i] = physics::frozen_fictive_K(glass, 869.0 + 150.0, rates_K_per_min[i] / 60);
    evidence.near(frozen_K[i] - physics::zero_celsius_K, expected_C[i], 0.3);
  }
  evidence.in("K");
  for (std::size_t i = 0; i + 1 < rates_K_per_min.size(); ++i) {
    const double slope = -std::log(rates_K_per_min[i + 1] / rates_K_per_min[i]) / (1 / frozen_K[i + 1] - 1 / frozen_K[i]);
    evidence.within_percent(slope, glass.activation_K + frozen_K[i] + frozen_K[i + 1], 1);
  }
}

TEST(stress, ReferenceFromMeasuredTransition) {
  reference::Evidence evidence("handbook's distances of reference and frozen structure at 5 K/min: sets A, B, sealing glass", "K");
  const auto distance = [](const physics::RelaxingGlass& glass) {
    return glass.reference_K - physics::frozen_fictive_K(glass, glass.reference_K + 150, 5.0 / 60);
  };
  evidence.near(distance(float_glass(55000)), 82, 0.5);
  evidence.near(distance(float_glass(76200)), 59, 0.5);
  const physics::RelaxingGlass sealing{
      891.0, 6.45e4, 0.53, {{0.108, 3.0}, {0.443, 0.671}, {0.166, 0.247}, {0.161, 0.091}, {0.046, 0.033}, {0.076, 0.008}}};
  evidence.near(distance(sealing), 86, 0.5);
  auto porcelain = float_glass(7.0e4);
  porcelain.reference_K = 933.15;
  const double frozen_K = physics::frozen_fictive_K(porcelain, 1083.15, 5.0 / 60);
  evidence.near(frozen_K, 585 + physics::zero_celsius_K, 0.5);
  evidence.near(physics::reference_of_transition_K(porcelain, frozen_K, 5.0 / 60), 933.15, 1e-3);
}

}  // namespace
}  // namespace heatwork
