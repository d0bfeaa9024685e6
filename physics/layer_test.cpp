#include "physics/layer.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace heatwork::physics {
namespace {

TEST(Layer, PropertyIsStraightBetweenAndHeldOutside) {
  const auto cp = TemperatureProperty::linear(25, 750, 600, 1080);
  EXPECT_DOUBLE_EQ(cp.at_C(-50), 750);
  EXPECT_NEAR(cp.at_C(312.5), 915, 1e-9);
  EXPECT_NEAR(cp.at_C(900), 1080, 1e-9);
  EXPECT_DOUBLE_EQ(cp.slope_at_K(1000), 0);
  EXPECT_NEAR(cp.slope_at_K(500), 330.0 / 575.0, 1e-12);
}

TEST(Layer, IntegralIsExactAcrossTheEnds) {
  const auto cp = TemperatureProperty::linear(25, 750, 600, 1080);
  const double expected = 750 * 25 + 915 * 575 + 1080 * 400;
  EXPECT_NEAR(cp.integral_K(273.15, 1273.15), expected, 1e-6);
  EXPECT_NEAR(cp.integral_K(1273.15, 273.15), -expected, 1e-6);
  const double c[] = {1.0, 2.0, 3.0};
  EXPECT_NEAR(TemperatureProperty::polynomial(c).integral_K(273.15, 275.15), 2 + 4 + 8, 1e-9);
}

TEST(Layer, HasATermOverTheSquareOfTemperatureBelowItsStep) {
  const double below[] = {900.0, 0.4}, above[] = {1400.0, 0.01};
  const auto cp = TemperatureProperty::stepped(below, -1.8e7, 0, 576.85, above);
  EXPECT_NEAR(cp.at_K(500), 900 + 0.4 * 226.85 - 1.8e7 / 250000, 1e-9);
  EXPECT_NEAR(cp.at_K(900), 1400 + 0.01 * 626.85, 1e-9);
  EXPECT_DOUBLE_EQ(cp.at_C(-50), cp.at_C(0));
  EXPECT_NEAR(cp.slope_at_K(500), 0.4 + 3.6e7 / 125e6, 1e-12);
  EXPECT_NEAR(cp.slope_at_K(900), 0.01, 1e-12);
  EXPECT_FALSE(cp.is_straight());
  double sum = 0;
  for (int i = 0; i < 70000; ++i) sum += 0.01 * cp.at_K(250.005 + 0.01 * i);
  EXPECT_NEAR(cp.integral_K(250, 950), sum, 1e-2);
  EXPECT_NEAR(cp.raised(5).at_K(500) - cp.at_K(500), 5, 1e-12);
  EXPECT_NEAR(cp.raised(5).at_K(900) - cp.at_K(900), 5, 1e-12);
  EXPECT_THROW(static_cast<void>(TemperatureProperty::stepped(below, 1, -273.15, 500, above)), std::invalid_argument);
}

TEST(Layer, RefusesWhatCannotBe) {
  EXPECT_THROW(static_cast<void>(TemperatureProperty::linear(600, 1, 25, 2)), std::invalid_argument);
  EXPECT_THROW(static_cast<void>(TemperatureProperty::polynomial({})), std::invalid_argument);
  Layer layer{1e-3, 2400, TemperatureProperty::constant(1.2), TemperatureProperty::constant(900), 0};
  EXPECT_NO_THROW(check_layers({&layer, 1}, SectionForm::plate, 0));
  layer.thickness_m = 0;
  try {
    check_layers({&layer, 1}, SectionForm::plate, 0);
    FAIL();
  } catch (const std::invalid_argument& wrong) {
    EXPECT_STREQ(wrong.what(), "layer 1: thickness_m must be positive.");
  }
  layer.thickness_m = 1e-3;
  layer.contact_resistance_m2K_per_W = 1e-4;
  EXPECT_THROW(check_layers({&layer, 1}, SectionForm::plate, 0), std::invalid_argument);
}

}  // namespace
}  // namespace heatwork::physics
