#include "metrology/display_offset.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "metrology/distributions.h"
#include "metrology/melt_curve.h"
#include "metrology/melt_wire.h"
#include "metrology/straight_line.h"

namespace heatwork::metrology {
namespace {

TEST(DisplayOffset, OnePointIsCarriedBetweenProportionalAndConstant) {
  const std::array<OffsetPoint, 1> silver = {{{961.78, -10, 3}}};
  const OffsetAt at_800 = offset_at(silver, 800);
  EXPECT_NEAR(at_800.low_K, -10, 1e-9);
  EXPECT_NEAR(at_800.high_K, -10 * 800 / 961.78, 1e-9);
  EXPECT_GT(at_800.uncertainty_K, 3);
  EXPECT_NEAR(offset_at(silver, 961.78).uncertainty_K, 3, 1e-9);
}

TEST(DisplayOffset, TwoPointsAreInterpolatedWithTheirWeights) {
  const std::array<OffsetPoint, 2> two = {{{961.78, -10, 3}, {800, -4, 2}}};
  const double w = (900.0 - 961.78) / (800 - 961.78);
  const OffsetAt between = offset_at(two, 900);
  EXPECT_NEAR(between.offset_K, -10 + (-4 + 10) * w, 1e-9);
  EXPECT_NEAR(between.uncertainty_K, std::hypot((1 - w) * 3, w * 2), 1e-9);
  EXPECT_NEAR(offset_at(two, 800).uncertainty_K, 2, 1e-9);
}

TEST(DisplayOffset, MorePointsOfOneUncertaintyGiveThePlainLine) {
  const std::array<OffsetPoint, 4> points = {{{700, -3, 2}, {800, -5, 2}, {900, -4.5, 2}, {960, -8, 2}}};
  const std::array<double, 4> x = {700, 800, 900, 960}, y = {-3, -5, -4.5, -8};
  EXPECT_NEAR(offset_at(points, 850).offset_K, line_at(fit_straight_line(x, y, 0), 850).value, 1e-9);
}

TEST(DisplayOffset, BothConventionsLeaveTheSameTrueTemperature) {
  for (const double offset : {-14.2, 0.0, 7.5}) {
    for (const double keyed_now : {-3.0, 0.0, 6.0}) {
      for (const KeyedCorrection what : {KeyedCorrection::added_to_display, KeyedCorrection::added_to_setting}) {
        EXPECT_NEAR(true_temperature_C(what, 930, offset, keyed_now, keyed_now), 930 - offset, 1e-9);
        EXPECT_NEAR(true_temperature_C(what, 930, offset, keyed_now, correction_to_key_K(what, keyed_now, offset)), 930, 1e-9);
      }
    }
  }
  EXPECT_EQ(correction_to_key_K(KeyedCorrection::added_to_display, 0, 8), -8);
  EXPECT_EQ(correction_to_key_K(KeyedCorrection::added_to_setting, 0, 8), 8);
}

TEST(DisplayOffset, DegreesOfFreedomOfOnePartAreItsOwn) {
  const std::array<double, 2> parts = {2, 1}, degrees = {4, std::numeric_limits<double>::infinity()};
  EXPECT_NEAR(effective_degrees_of_freedom(parts, degrees), 25.0 / (16.0 / 4), 1e-12);
  EXPECT_NEAR(student_factor(0.95, 10), 2.2281, 1e-4);
}

TEST(DisplayOffset, Refuses) {
  EXPECT_THROW(offset_at({}, 800), std::domain_error);
  const std::array<OffsetPoint, 2> same = {{{800, 1, 1}, {800, 2, 1}}};
  EXPECT_THROW(offset_at(same, 800), std::domain_error);
  const std::array<OffsetPoint, 1> sure = {{{800, 1, 0}}};
  EXPECT_THROW(offset_at(sure, 800), std::domain_error);
  const std::array<double, 3> one_x = {1, 1, 1}, y = {1, 2, 3};
  EXPECT_THROW(fit_straight_line(one_x, y, 0), std::domain_error);
}

TEST(MeltWire, SterlingAndWorseAreRefused) {
  try {
    wire_melt_point(WireMetal::silver, WireGas::inert, 1000, 92.5);
    ADD_FAILURE();
  } catch (const std::domain_error& refused) {
    EXPECT_STREQ(
        refused.what(),
        "The wire is 92.5 % pure: a melt test needs 99.5 % or more, since an alloy (sterling silver is 92.5 %) begins to melt far lower.");
  }
  EXPECT_THROW(wire_melt_point(WireMetal::silver, WireGas::air, 0, 99.99), std::domain_error);
}

TEST(MeltWire, GoldFeelsNoOxygenAndAnUnknownGasIsWide) {
  EXPECT_EQ(wire_melt_point(WireMetal::gold, WireGas::air, 1013, 99.99).temperature_C, gold_freezing_C);
  const MeltPoint unknown = wire_melt_point(WireMetal::silver, WireGas::unknown, 1013, 100);
  EXPECT_NEAR(unknown.temperature_C, 956.7, 0.1);
  EXPECT_NEAR(unknown.uncertainty_K, 2.94, 0.05);
}

TEST(MeltCurve, RefusesSeparatedAndFallingRecords) {
  const std::array<MeltCount, 2> all = {{{950, 3, 3}, {960, 3, 3}}};
  EXPECT_THROW(fit_melt_curve(MeltLink::probit, all), std::domain_error);
  const std::array<MeltCount, 3> touching = {{{950, 3, 0}, {955, 4, 2}, {960, 3, 3}}};
  EXPECT_THROW(fit_melt_curve(MeltLink::logit, touching), std::domain_error);
  const std::array<MeltCount, 3> falling = {{{950, 5, 4}, {955, 5, 3}, {960, 5, 1}}};
  EXPECT_THROW(fit_melt_curve(MeltLink::logit, falling), std::domain_error);
  const std::array<MeltCount, 3> more_than_tested = {{{950, 5, 6}, {955, 5, 3}, {960, 5, 1}}};
  EXPECT_THROW(fit_melt_curve(MeltLink::logit, more_than_tested), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
