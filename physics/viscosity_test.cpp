#include "physics/viscosity.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

#include "physics/heat_work.h"

namespace heatwork::physics {
namespace {

const Vft glass{-3.0, 6267.0, 142.2};

TEST(Viscosity, IsStiffNearAndBelowThePoleOfTheFormula) {
  for (const double temperature_C : {-200.0, 25.0, 142.2, 150.0, 500.0, 142.2 + 6267.0 / 17.0}) {
    EXPECT_EQ(log10_viscosity(glass, temperature_C), 14.0) << temperature_C;
  }
  EXPECT_LT(log10_viscosity(glass, 142.2 + 6267.0 / 17.0 + 0.1), 14.0);
  EXPECT_NEAR(log10_viscosity(glass, 142.2 + 6267.0 / 17.0 + 1e-9), 14.0, 1e-6);
}

TEST(Viscosity, RefusesWhatIsNoMelt) {
  EXPECT_THROW(temperature_of_log10_viscosity_C(glass, -3.0), std::domain_error);
  EXPECT_THROW(temperature_of_log10_viscosity_C(glass, 14.5), std::domain_error);
  EXPECT_THROW(temperature_of_log10_viscosity_C({-3.0, -1.0, 100.0}, 5.0), std::domain_error);
  EXPECT_THROW(vft_through_three_points({{{500.0, 5.0}, {600.0, 6.0}, {700.0, 8.0}}}), std::domain_error);
  EXPECT_THROW(vft_through_three_points({{{500.0, 12.0}, {500.0, 12.0}, {700.0, 8.0}}}), std::domain_error);
  EXPECT_THROW(vft_through_two_points(-3.0, {600.0, 6.0}, {500.0, 5.0}), std::domain_error);
  EXPECT_THROW(crystal_factor(0.6), std::domain_error);
  EXPECT_THROW(crystal_factor(-0.1), std::domain_error);
  EXPECT_EQ(crystal_factor(0.0), 1.0);
}

TEST(Viscosity, ThreePointsInAnyOrderGiveOneLaw) {
  const Vft up = vft_through_three_points({{{545.0, 12.0}, {731.0, 6.6}, {1319.0, 1.5}}});
  const Vft down = vft_through_three_points({{{1319.0, 1.5}, {545.0, 12.0}, {731.0, 6.6}}});
  EXPECT_NEAR(up.A, down.A, 1e-10);
  EXPECT_NEAR(up.B_K, down.B_K, 1e-6);
  EXPECT_NEAR(log10_viscosity(up, 731.0), 6.6, 1e-12);
}

TEST(HeatWork, IntegratesRampsOfAnyLength) {
  // One long segment against 20 000 short ones, up and down, from below the pole.
  for (const auto& [from_K, to_K] : {std::pair{300.0, 1203.15}, {1203.15, 300.0}, {1000.0, 1203.15}, {1100.0, 1100.0}}) {
    std::vector<double> times_s, temperatures_K;
    constexpr int points = 20000;
    for (int i = 0; i <= points; ++i) {
      times_s.push_back(600.0 * i / points);
      temperatures_K.push_back(from_K + (to_K - from_K) * i / points);
    }
    const double fine = fluidity_per_Pa(glass, 1.71, times_s, temperatures_K);
    EXPECT_NEAR(fluidity_of_segment_per_Pa(glass, 1.71, 600.0, from_K, to_K) / fine, 1.0, 1e-7);
    std::vector<double> sums(times_s.size());
    fluidity_sums_per_Pa(glass, 1.71, times_s, temperatures_K, sums);
    EXPECT_EQ(sums.back(), fine);
  }
}

TEST(HeatWork, RefusesEqualWorkBeyondTheMelt) {
  EXPECT_THROW(equal_heat_work_C(glass, 930.0, 60.0, 0.0), std::domain_error);
  EXPECT_THROW(equal_heat_work_C(glass, 930.0, 60.0, 1e-9), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
