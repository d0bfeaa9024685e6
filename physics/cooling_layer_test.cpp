#include "physics/cooling_layer.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

const StressLayer stiff = solid(1, 65, 0.21, 9.5);

StressLayer glassy() {
  StressLayer layer = stiff;
  layer.glass = StressGlass{};
  layer.glass->relaxing = {900, 7e4, 0.5, {{0.4, 0.1}, {0.6, 5}}};
  layer.glass->liquid_expansion_per_K = 28.5e-6;
  layer.glass->shear = {{0.3, 1}, {0.7, 20}};
  return layer;
}

void strain(CoolingLayer& layer, double first, double second, double third) {
  const std::vector<double> one(layer.points(), first), two(layer.points(), second), three(layer.points(), third);
  layer.finish(one.data(), two.data(), three.data());
}

TEST(CoolingLayer, WithoutGlassFollowsHooke) {
  CoolingLayer layer(stiff, 3, 900);
  const std::vector<double> cooler(3, 880);
  layer.prepare(cooler.data(), 1);
  strain(layer, 1e-4, -2e-5, 3e-5);
  const double thermal = 9.5e-6 * -20, trace = 1.1e-4 - 3 * thermal, lame = 65e9 * 0.21 / (1.21 * 0.58), shear = 65e9 / 2.42;
  EXPECT_NEAR(layer.stress_1[1], lame * trace + 2 * shear * (1e-4 - thermal), 1);
  EXPECT_NEAR(layer.stress_2[1], lame * trace + 2 * shear * (-2e-5 - thermal), 1);
  EXPECT_NEAR(layer.stress_3[1], lame * trace + 2 * shear * (3e-5 - thermal), 1);
}

TEST(CoolingLayer, HeldStrainRelaxesTermByTerm) {
  CoolingLayer layer(glassy(), 2, 900);
  const std::vector<double> same(2, 900);
  layer.prepare(same.data(), 1e-9);
  strain(layer, 1e-4, -1e-4, 0);
  const double first = layer.stress_1[0];
  layer.begin_course();
  layer.prepare(same.data(), 4);  // at the reference the clock runs at rate 1
  strain(layer, 0, 0, 0);
  EXPECT_NEAR(layer.stress_1[0] / first, 0.3 * std::exp(-4) + 0.7 * std::exp(-0.2), 1e-9);
  EXPECT_NEAR(layer.stress_1[0], -layer.stress_2[0], 1);
}

TEST(CoolingLayer, HoldsTheStressOfItsStrainRateWhereItFlows) {
  CoolingLayer layer(glassy(), 2, 900);
  const std::vector<double> same(2, 900);
  for (int i = 1; i <= 40; ++i) {  // strain as the square of time: its rate at the end is twice the mean
    layer.prepare(same.data(), 100);
    const double rise = 1e-7 * (i * i - (i - 1) * (i - 1));
    strain(layer, rise, -rise, 0);
  }
  const double rate = 1e-7 * 2 * 40 / 100, acceleration = 1e-7 * 2 / 1e4, twice = 65e9 / 1.21;
  const double exact = twice * (0.3 * (rate - acceleration) + 0.7 * 20 * (rate - 20 * acceleration));
  EXPECT_NEAR(layer.stress_1[0], exact, 2e-4 * exact);
}

TEST(CoolingLayer, TakesNoRateFromAMuchShorterStep) {
  CoolingLayer layer(glassy(), 2, 900);
  const std::vector<double> same(2, 900);
  const double steady = 1e-6, twice = 65e9 / 1.21, exact = twice * (0.3 + 0.7 * 20) * steady;
  for (int i = 0; i < 20; ++i) {
    layer.prepare(same.data(), 100);
    strain(layer, 100 * steady, -100 * steady, 0);
  }
  EXPECT_NEAR(layer.stress_1[0], exact, 1e-6 * exact);
  layer.prepare(same.data(), 1e-6);
  strain(layer, 0, 0, 0);
  layer.prepare(same.data(), 100);
  strain(layer, 100 * steady, -100 * steady, 0);
  EXPECT_NEAR(layer.stress_1[0], exact, 0.01 * exact);
}

TEST(CoolingLayer, KnowsWhereItsGlassIs) {
  CoolingLayer layer(glassy(), 2, 1100);
  std::vector<double> next(2, 1099);
  layer.prepare(next.data(), 1);
  EXPECT_EQ(layer.course(1), GlassCourse::liquid);
  CoolingLayer cooler(glassy(), 2, 890);
  next.assign(2, 889);
  cooler.prepare(next.data(), 1);
  EXPECT_EQ(cooler.course(1), GlassCourse::freezing);
  EXPECT_FALSE(cooler.frozen());
  CoolingLayer cold(glassy(), 2, 500);
  next.assign(2, 499);
  cold.prepare(next.data(), 1);
  EXPECT_TRUE(cold.frozen());
  EXPECT_EQ(cold.course(1), GlassCourse::cold);
}

TEST(CoolingLayer, FreezesOnlyWithinItsAllowance) {
  // The fastest term of 0.1 s would relax by 1e-7 in this step: one such may be left out, ten thousand may not.
  CoolingLayer layer(glassy(), 1, 700);
  const std::vector<double> same(1, 700);
  const double rate = std::exp(log_shift(layer.layer().glass->relaxing, 700, 700)), step = 0.5e-7 * 0.1 / rate;
  int left_out = 0;
  for (int i = 0; i < 10000; ++i) {
    layer.prepare(same.data(), step);
    strain(layer, 0, 0, 0);
    left_out += layer.frozen() ? 1 : 0;
  }
  EXPECT_GT(left_out, 0);
  EXPECT_LT(left_out * 0.5e-7, 1e-6);
}

TEST(CoolingLayer, GoesOnFromWhatItSaved) {
  CoolingLayer one(glassy(), 3, 900), other(glassy(), 3, 900);
  const std::vector<double> next(3, 890), later(3, 880);
  one.prepare(next.data(), 5);
  strain(one, 1e-5, 2e-5, -1e-5);
  std::vector<double> kept;
  one.save(kept);
  std::span<const double> from(kept);
  other.load(from);
  EXPECT_TRUE(from.empty());
  for (CoolingLayer* layer : {&one, &other}) {
    layer->begin_course();
    layer->prepare(later.data(), 5);
    strain(*layer, 1e-5, 0, 0);
  }
  EXPECT_EQ(one.stress_1, other.stress_1);
  EXPECT_EQ(one.Tf, other.Tf);
  std::span<const double> torn(kept.data(), kept.size() - 1);
  EXPECT_THROW(other.load(torn), std::domain_error);
}

std::string refusal(const StressLayer& layer) {
  try {
    const CoolingLayer made(layer, 3, 900);
  } catch (const std::domain_error& wrong) {
    return wrong.what();
  }
  return "";
}

TEST(CoolingLayer, RefusesWhatCannotBe) {
  StressLayer layer = glassy();
  layer.youngs_Pa = 0;
  EXPECT_EQ(refusal(layer), "Young's modulus must be above 0 Pa.");
  layer = glassy();
  layer.poisson = 0.5;
  EXPECT_EQ(refusal(layer), "Poisson's ratio must be from 0 and below 0.5.");
  layer = glassy();
  layer.glass->bulk_remaining = 1.5;
  EXPECT_EQ(refusal(layer), "The remaining share of the bulk modulus is 1.500000, but must be from 0 to 1.");
  layer = glassy();
  layer.glass->shear = {};
  EXPECT_EQ(refusal(layer), "The spectrum of shear has no terms, but must have one at least.");
}

}  // namespace
}  // namespace heatwork::physics
