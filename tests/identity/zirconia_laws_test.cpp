// Laws the sintering of zirconia must keep.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "physics/equivalent_firing.h"
#include "physics/layer.h"
#include "physics/zirconia_sintering.h"

namespace heatwork::identity {
namespace {

using namespace physics;

const std::vector<double> corners_s{0.0, 7200.0, 12600.0, 12600.0, 15000.0, 18000.0, 21600.0, 30000.0};
const std::vector<double> corners_K{300.0, 1400.0, 1560.0, 1540.0, 1540.0, 600.0, 1500.0, 1720.0};

TEST(ZirconiaLaws, TwoCallsGiveWhatOneGives) {
  const ZirconiaProperties properties;
  ZirconiaState whole = start_zirconia(properties);
  advance_zirconia(properties, whole, corners_s, corners_K);
  for (std::size_t at = 1; at + 1 < corners_s.size(); ++at) {
    ZirconiaState state = start_zirconia(properties);
    const std::span<const double> times(corners_s), temperatures(corners_K);
    advance_zirconia(properties, state, times.first(at + 1), temperatures.first(at + 1));
    advance_zirconia(properties, state, times.subspan(at), temperatures.subspan(at));
    EXPECT_NEAR(state.log_theta, whole.log_theta, 1e-12) << at;
    EXPECT_NEAR(state.grain_um, whole.grain_um, 1e-12) << at;
    EXPECT_NEAR(state.log_rate, whole.log_rate, 1e-9) << at;
    EXPECT_EQ(state.highest_K, whole.highest_K);
  }
}

TEST(ZirconiaLaws, SegmentsMayBeCutAnywhereAndTheTraceOnlyRises) {
  const ZirconiaProperties properties;
  ZirconiaState whole = start_zirconia(properties);
  advance_zirconia(properties, whole, corners_s, corners_K);
  std::mt19937 random(4711);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int trial = 0; trial < 20; ++trial) {
    std::vector<double> times_s{corners_s[0]}, temperatures_K{corners_K[0]};
    for (std::size_t i = 1; i < corners_s.size(); ++i) {
      double share = 0.0;
      while ((share += 0.2 * unit(random)) < 1.0 && corners_s[i] > corners_s[i - 1]) {
        times_s.push_back(corners_s[i - 1] + share * (corners_s[i] - corners_s[i - 1]));
        temperatures_K.push_back(corners_K[i - 1] + share * (corners_K[i] - corners_K[i - 1]));
      }
      times_s.push_back(corners_s[i]);
      temperatures_K.push_back(corners_K[i]);
    }
    ZirconiaState fine = start_zirconia(properties);
    ZirconiaTrace trace;
    advance_zirconia(properties, fine, times_s, temperatures_K, &trace);
    EXPECT_NEAR(fine.log_theta, whole.log_theta, 1e-9);
    EXPECT_NEAR(fine.grain_um, whole.grain_um, 1e-9);
    for (std::size_t i = 1; i < trace.density.size(); ++i) {
      EXPECT_GE(trace.density[i], trace.density[i - 1]);
      EXPECT_GE(trace.grain_um[i], trace.grain_um[i - 1]);
    }
    EXPECT_EQ(trace.density.back(), sintered_density(properties.curve, fine.log_theta));
  }
}

TEST(ZirconiaLaws, DensityAndItsInverseMeet) {
  const MasterCurve curve;
  for (double density = 0.45; density < 0.985; density += 0.01)
    EXPECT_NEAR(sintered_density(curve, log_theta_of_density(curve, density)), density, 1e-12);
}

TEST(ZirconiaLaws, MoreHeatAlwaysDoesMore) {
  const ZirconiaProperties properties;
  std::mt19937 random(99);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (int trial = 0; trial < 100; ++trial) {
    std::vector<double> times_s, colder_K, hotter_K;
    double time_s = 0.0;
    for (int point = 0; point < 12; ++point) {
      times_s.push_back(time_s);
      colder_K.push_back(300.0 + 1500.0 * unit(random));
      hotter_K.push_back(colder_K.back() + 20.0 * unit(random));
      time_s += unit(random) < 0.1 ? 0.0 : 3000.0 * unit(random);
    }
    ZirconiaState colder = start_zirconia(properties), hotter = start_zirconia(properties);
    advance_zirconia(properties, colder, times_s, colder_K);
    advance_zirconia(properties, hotter, times_s, hotter_K);
    EXPECT_GT(hotter.log_theta, colder.log_theta);
    EXPECT_GE(hotter.grain_um, colder.grain_um);
  }
}

TEST(ZirconiaLaws, EquivalentFiringKeepsItsIdentities) {
  const PieceHistory reference{{0.0, 9000.0, 16200.0, 20000.0}, {300.0, 1700.0, 1700.0, 900.0}};
  const EquivalentFiring same = equivalent_firing(MasterCurve{}, reference, reference, 9000.0, 16200.0);
  EXPECT_NEAR(same.shift_K.value(), 0.0, 1e-6);
  EXPECT_NEAR(same.hold_s.value(), 0.0, 1e-5);
  EXPECT_DOUBLE_EQ(same.quantity, log_theta_of_history(746.0, reference.times_s, reference.temperatures_K));
  const EquivalentFiring colder = equivalent_firing(MasterCurve{}, shifted(reference, -37.0), reference, 9000.0, 16200.0);
  EXPECT_NEAR(colder.shift_K.value(), -37.0, 1e-5);
  EXPECT_LT(colder.hold_s.value(), 0.0);
  const PieceHistory shorter = with_hold_changed(reference, 9000.0, 16200.0, -1234.0);
  EXPECT_NEAR(equivalent_firing(MasterCurve{}, shorter, reference, 9000.0, 16200.0).hold_s.value(), -1234.0, 1e-3);
}

}  // namespace
}  // namespace heatwork::identity
