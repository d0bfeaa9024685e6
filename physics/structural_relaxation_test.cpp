#include "physics/structural_relaxation.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

namespace heatwork::physics {
namespace {

RelaxingGlass simple() {
  return {900.0, 70000.0, 0.5, {{0.4, 1.0}, {0.6, 10.0}}};
}

std::string refusal(const RelaxingGlass& glass) {
  try {
    check_relaxing_glass(glass);
  } catch (const std::domain_error& refused) {
    return refused.what();
  }
  return "taken";
}

TEST(StructuralRelaxation, StaysInEquilibriumWhereNothingChanges) {
  auto state = equilibrium_structure(simple(), 850.0);
  advance_structure(simple(), state, 850.0, 1e4);
  EXPECT_NEAR(state.fictive_K, 850.0, 1e-9);
}

TEST(StructuralRelaxation, OneTermWithoutMemoryOfStructureIsExactAtAnyStep) {
  RelaxingGlass glass = simple();
  glass.nonlinearity = 1.0;
  glass.structure = {{1.0, 5.0}};
  StructureState state{900.0, 950.0, {950.0}};  // isothermal at the reference: the clock is the clock on the wall
  advance_structure(glass, state, 900.0, 7.0);
  EXPECT_NEAR(state.fictive_K, 900.0 + 50.0 * std::exp(-7.0 / 5.0), 1e-9);
}

TEST(StructuralRelaxation, StepHalvingIsOfSecondOrder) {
  const auto after = [](int steps) {
    auto state = equilibrium_structure(simple(), 950.0);
    for (int i = 1; i <= steps; ++i) advance_structure(simple(), state, 950.0 - 150.0 * i / steps, 150.0 / steps);
    return state.fictive_K;
  };
  const double coarse = after(150), middle = after(300), fine = after(600);
  EXPECT_NEAR(std::log2(std::abs(coarse - middle) / std::abs(middle - fine)), 2.0, 0.2);
}

TEST(StructuralRelaxation, CooledFasterItFreezesHigher) {
  EXPECT_GT(frozen_fictive_K(simple(), 1050.0, 5.0), frozen_fictive_K(simple(), 1050.0, 0.1) + 20.0);
}

TEST(StructuralRelaxation, FindsTheReferenceOfAMeasuredTransition) {
  RelaxingGlass glass = simple();
  glass.reference_K = reference_of_transition_K(glass, 763.15, 5.0 / 60);
  EXPECT_NEAR(frozen_fictive_K(glass, glass.reference_K + 150.0, 5.0 / 60), 763.15, 1e-4);
}

TEST(StructuralRelaxation, RefusesWithTheValueAndWhatIsAllowed) {
  RelaxingGlass glass = simple();
  glass.nonlinearity = 1.5;
  EXPECT_EQ(refusal(glass), "The nonlinearity is 1.500000, but must be from 0 to 1.");
  glass = simple();
  glass.structure[0].weight = 0.2;
  EXPECT_EQ(refusal(glass), "The spectrum of the structure has weights that sum to 0.800000, but they must sum to 1 within 0.01.");
  glass.structure.clear();
  EXPECT_EQ(refusal(glass), "The spectrum of the structure has no terms, but must have one at least.");
  glass = simple();
  glass.activation_K = 100.0;
  EXPECT_THROW(frozen_fictive_K(glass, 1000.0, 1.0), std::domain_error);
  EXPECT_THROW(frozen_fictive_K(simple(), 1000.0, 0.0), std::domain_error);
  EXPECT_THROW(equilibrium_structure(simple(), -1.0), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
