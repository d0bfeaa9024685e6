// Laws the crystallisation model must keep.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

#include "physics/crystallisation.h"
#include "physics/layer.h"

namespace heatwork::identity {
namespace {

using namespace physics;

CrystallisationProperties glass(bool first_done) {
  CrystallisationProperties properties;
  properties.steps = {{3.0, 320.0, 9.6126e15, first_done}, {2.0, 300.0, 1.2777e12, false}};
  return properties;
}

const std::vector<double> corners_s{0.0, 900.0, 1100.0, 1500.0, 1700.0, 2300.0, 2500.0};
const std::vector<double> corners_K{600.0, 1000.0, 1085.0, 1085.0, 1190.0, 1190.0, 800.0};

TEST(CrystallisationLaws, TwoCallsGiveWhatOneGives) {
  for (const bool first_done : {false, true}) {
    const CrystallisationProperties properties = glass(first_done);
    CrystallisationState whole = start_crystallisation(properties);
    advance_crystallisation(properties, whole, corners_s, corners_K);
    for (std::size_t at = 1; at + 1 < corners_s.size(); ++at) {
      CrystallisationState state = start_crystallisation(properties);
      const std::span<const double> times(corners_s), temperatures(corners_K);
      advance_crystallisation(properties, state, times.first(at + 1), temperatures.first(at + 1));
      advance_crystallisation(properties, state, times.subspan(at), temperatures.subspan(at));
      EXPECT_NEAR(state.z.back(), whole.z.back(), 1e-10 * whole.z.back());
      EXPECT_NEAR(state.loss, whole.loss, 1e-12);
      EXPECT_NEAR(state.crystal_um, whole.crystal_um, 1e-12);
    }
  }
}

TEST(CrystallisationLaws, SegmentsMayBeCutAnywhere) {
  const CrystallisationProperties properties = glass(false);
  CrystallisationState whole = start_crystallisation(properties);
  advance_crystallisation(properties, whole, corners_s, corners_K);
  std::vector<double> times_s{0.0}, temperatures_K{corners_K[0]};
  for (std::size_t i = 1; i < corners_s.size(); ++i) {
    for (int k = 1; k <= 37; ++k) {
      times_s.push_back(corners_s[i - 1] + (corners_s[i] - corners_s[i - 1]) * k / 37.0);
      temperatures_K.push_back(corners_K[i - 1] + (corners_K[i] - corners_K[i - 1]) * k / 37.0);
    }
  }
  CrystallisationState fine = start_crystallisation(properties);
  CrystallisationTrace trace;
  advance_crystallisation(properties, fine, times_s, temperatures_K, &trace);
  EXPECT_NEAR(net_fraction(properties, fine), net_fraction(properties, whole), 1e-5);
  EXPECT_NEAR(fine.crystal_um, whole.crystal_um, 1e-9);
  EXPECT_EQ(trace.fraction.back(), net_fraction(properties, fine));
}

TEST(CrystallisationLaws, TheArrhenicIntegralIsExactUpDownAndShort) {
  for (const double energy : {150.0, 300.0, 600.0}) {
    for (const auto& [from_K, to_K] : {std::pair{500.0, 1200.0}, {1200.0, 500.0}, {1000.0, 1001.0}, {1000.0, 1015.0}, {1000.0, 1000.0}}) {
      double sum = 0.0;
      constexpr int points = 20000;
      for (int i = 0; i < points; ++i) {
        sum += std::exp(-energy * 1e3 / gas_constant_J_per_mol_K / (from_K + (to_K - from_K) * (i + 0.5) / points)) / points;
      }
      EXPECT_NEAR(arrhenius_integral_s(energy, 10.0, from_K, to_K) / (10.0 * sum), 1.0, 2e-6);
    }
    // Both ways of computing it meet where one takes over from the other.
    const double near_K = 1000.0 / (1.0 - 0.0499 * gas_constant_J_per_mol_K * 1000.0 / (energy * 1e3));
    const double beyond_K = 1000.0 / (1.0 - 0.0501 * gas_constant_J_per_mol_K * 1000.0 / (energy * 1e3));
    const double by_points = arrhenius_integral_s(energy, near_K - 1000.0, 1000.0, near_K);
    const double by_closed_form = arrhenius_integral_s(energy, beyond_K - 1000.0, 1000.0, beyond_K);
    const double between = arrhenius_integral_s(energy, beyond_K - near_K, near_K, beyond_K);
    EXPECT_NEAR((by_points + between) / by_closed_form, 1.0, 1e-11);
  }
}

TEST(CrystallisationLaws, ExponentialIntegralKeepsItsInequality) {
  // 1/2 ln(1 + 2/x) < e^x E1(x) < ln(1 + 1/x) for all x > 0.
  for (double x = 1e-3; x < 500.0; x *= 1.07) {
    EXPECT_GT(scaled_exponential_integral(x), 0.5 * std::log1p(2.0 / x));
    EXPECT_LT(scaled_exponential_integral(x), std::log1p(1.0 / x));
  }
  EXPECT_NEAR(scaled_exponential_integral(1.0 - 1e-12), scaled_exponential_integral(1.0 + 1e-12), 1e-11);
  EXPECT_NEAR(scaled_exponential_integral(1.0) / (0.21938393439552028 * std::exp(1.0)), 1.0, 1e-13);
}

TEST(CrystallisationLaws, FractionsStayBetweenNothingAndAll) {
  std::mt19937 random(20252);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int trial = 0; trial < 200; ++trial) {
    const CrystallisationProperties properties = glass(trial % 2 == 0);
    std::vector<double> times_s, temperatures_K;
    double time_s = 0.0;
    for (int point = 0; point < 20; ++point) {
      times_s.push_back(time_s);
      temperatures_K.push_back(300.0 + 1000.0 * unit(random));
      time_s += unit(random) < 0.1 ? 0.0 : 300.0 * unit(random);
    }
    CrystallisationState state = start_crystallisation(properties);
    CrystallisationTrace trace;
    advance_crystallisation(properties, state, times_s, temperatures_K, &trace);
    double z = 0.0;
    double crystal_um = 0.0;
    for (std::size_t i = 0; i < trace.z.size(); ++i) {
      EXPECT_GE(trace.fraction[i], -1e-12);
      EXPECT_LE(trace.fraction[i], 1.0);
      EXPECT_GE(trace.z[i], z);
      EXPECT_GE(trace.crystal_um[i], crystal_um);
      z = trace.z[i];
      crystal_um = trace.crystal_um[i];
    }
    EXPECT_LE(crystal_um, 1.08 + 1e-12);
  }
}

TEST(CrystallisationLaws, TheSecondStepNeverRunsBeforeTheFirst) {
  const CrystallisationProperties fed = glass(false);
  const CrystallisationProperties ready = glass(true);
  CrystallisationState late = start_crystallisation(fed);
  CrystallisationState early = start_crystallisation(ready);
  const std::vector<double> times_s{0.0, 400.0}, temperatures_K{873.15, 1093.15};
  advance_crystallisation(fed, late, times_s, temperatures_K);
  advance_crystallisation(ready, early, times_s, temperatures_K);
  EXPECT_LT(late.z.back(), early.z.back());
  EXPECT_GT(late.z.back(), 0.0);
}

TEST(CrystallisationLaws, LossRelaxesAsItsOwnExponential) {
  // Fully crystallised and held between reversal and liquidus: Y goes to 1 - f with k_rev.
  const CrystallisationProperties properties = glass(true);
  CrystallisationState state = start_crystallisation(properties);
  state.z.back() = 10.0;
  const double kelvin = 905.0 + zero_celsius_K;  // halfway: f = 0.5
  const std::vector<double> times_s{0.0, 700.0}, temperatures_K{kelvin, kelvin};
  advance_crystallisation(properties, state, times_s, temperatures_K);
  EXPECT_NEAR(state.loss, 0.5 * (1.0 - std::exp(-0.7)), 1e-12);
  const std::vector<double> cool_K{1100.0, 1100.0};
  const double before = state.loss;
  advance_crystallisation(properties, state, times_s, cool_K);
  EXPECT_EQ(state.loss, before);
}

TEST(CrystallisationLaws, MinutesBetweenAddUp) {
  const double all = minutes_between(corners_s, corners_K, 1.0, 3000.0);
  EXPECT_NEAR(all, 2500.0 / 60.0, 1e-12);
  const double low = minutes_between(corners_s, corners_K, 1.0, 1050.0);
  EXPECT_NEAR(low + minutes_between(corners_s, corners_K, 1050.0, 3000.0), all, 1e-12);
  const std::vector<double> times_s{0.0, 100.0}, ramp_K{900.0, 1000.0};
  EXPECT_NEAR(minutes_between(times_s, ramp_K, 923.15, 950.0), 26.85 / 60.0, 1e-12);
}

}  // namespace
}  // namespace heatwork::identity
