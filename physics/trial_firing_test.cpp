#include "physics/trial_firing.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "physics/layer.h"

namespace heatwork::physics {
namespace {

const PowderClock porcelain{{-3.0, 6267.0, 142.2}, 1.71, 0.3, 6.0};
constexpr double nominal_C = 930.0, transition_C = 560.0;

TEST(TrialFiring, TheNominalFiringReturnsTheClass) {
  const TrialGlass glass = glass_of_trial(porcelain, nominal_C, transition_C, nominal_firing(nominal_C), 0.0);
  EXPECT_NEAR(glass.shift_K, 0.0, 0.1);
  EXPECT_EQ(glass.vft.A, -3.0);
  EXPECT_NEAR(glass.vft.T0_C, 142.2, 0.5);
  EXPECT_NEAR(log10_viscosity(glass.vft, transition_C), 12.0, 1e-9);
}

TEST(TrialFiring, NominalFiringIsTheStatedOne) {
  const PieceHistory nominal = nominal_firing(nominal_C);
  EXPECT_NEAR(nominal.times_s[1], 523.6363636, 1e-6);
  EXPECT_NEAR(nominal.times_s[2] - nominal.times_s[1], 60.0, 1e-9);
  EXPECT_NEAR(nominal.temperatures_K[0] - zero_celsius_K, 450.0, 1e-9);
  EXPECT_NEAR(nominal.temperatures_K[2] - zero_celsius_K, 930.0, 1e-9);
}

TEST(TrialFiring, TheDegreeLowersTheHistory) {
  const PieceHistory warmer = shifted(nominal_firing(nominal_C), 17.0);
  EXPECT_NEAR(glass_of_trial(porcelain, nominal_C, transition_C, warmer, 17.0).shift_K, 0.0, 0.1);
  const double by_history = glass_of_trial(porcelain, nominal_C, transition_C, shifted(warmer, -30.0), 0.0).shift_K;
  EXPECT_NEAR(glass_of_trial(porcelain, nominal_C, transition_C, warmer, 30.0).shift_K, by_history, 1e-5);
  EXPECT_LT(by_history, -5.0);
  EXPECT_GT(glass_of_trial(porcelain, nominal_C, transition_C, warmer, 0.0).shift_K, 5.0);
}

TEST(TrialFiring, TheGlassFoundDoesTheWorkOfTheClass) {
  const PieceHistory trial = shifted(nominal_firing(nominal_C), 41.0);
  for (const double transition : {535.0, 560.0, 590.0}) {
    PowderClock found = porcelain;
    const TrialGlass glass = glass_of_trial(porcelain, nominal_C, transition, trial, 8.0);
    found.vft = glass.vft;
    const double wanted = deciding_quantity(porcelain, nominal_firing(nominal_C));
    EXPECT_NEAR(deciding_quantity(found, shifted(trial, -8.0)) / wanted, 1.0, 1e-6);
    const double level = well_fired_log10_viscosity - std::log10(porcelain.crystal_factor);
    const double class_C = temperature_of_log10_viscosity_C(porcelain.vft, level);
    EXPECT_NEAR(temperature_of_log10_viscosity_C(glass.vft, level) - class_C, glass.shift_K, 1e-6);
  }
}

TEST(TrialFiring, RefusesATrialNoGlassExplains) {
  EXPECT_THROW(glass_of_trial(porcelain, nominal_C, transition_C, nominal_firing(470.0), 0.0), std::domain_error);
  EXPECT_THROW(glass_of_trial(porcelain, nominal_C, transition_C, shifted(nominal_firing(nominal_C), 400.0), 0.0), std::domain_error);
  EXPECT_THROW(glass_of_trial(porcelain, nominal_C, 1000.0, nominal_firing(nominal_C), 0.0), std::domain_error);
  EXPECT_THROW(glass_of_trial(porcelain, nominal_C, transition_C, nominal_firing(nominal_C), 200.0), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
