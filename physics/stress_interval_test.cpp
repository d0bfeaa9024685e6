#include "physics/stress_interval.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

const StressLayer core = solid(0.7, 205, 0.3, 10.5, 6050, 2.5, 580);

StressLayer veneer() {
  StressLayer layer = solid(1.5, 65, 0.21, 9.5, 2400, 1.3);
  layer.glass = StressGlass{};
  layer.glass->relaxing = {933.15, 7e4, 0.5, {{0.4, 0.1}, {0.6, 10}}};
  layer.glass->liquid_expansion_per_K = 28.5e-6;
  layer.glass->shear = {{0.3, 0.01}, {0.7, 1}};
  return layer;
}

GlassRanges known() {
  GlassRanges ranges;
  ranges.layer = 1;
  ranges.activation_K = {7e4, 7e4};
  ranges.transition_K = {863, 863};
  return ranges;
}

CoolingCourse course() {
  CoolingCourse made;
  made.inner = made.outer = FaceCooling{60, 0};
  return made;
}

const std::vector<StressLayer> layers = {core, veneer()};
const std::vector<SectionCase> forms = {{StressForm::sphere, 4e-3}, {StressForm::plate_flat, 0}};

TEST(StressInterval, SpreadPointsFillTheirSpaceEvenly) {
  constexpr int count = 4096;
  for (const std::uint64_t seed : {1UL, 2UL, 77UL}) {
    std::array<int, 16> corner{};
    for (std::size_t i = 0; i < count; ++i) {
      const auto p = spread_point(seed, i);
      std::size_t at = 0;
      for (std::size_t d = 0; d < 4; ++d) {
        EXPECT_GE(p[d], 0.0);
        EXPECT_LT(p[d], 1.0);
        at += (p[d] < 0.5 ? 0UL : 1UL) << d;
      }
      ++corner[at];
    }
    for (const int found : corner) EXPECT_EQ(found, count / 16);
  }
  EXPECT_EQ(spread_point(5, 9), spread_point(5, 9));
  EXPECT_NE(spread_point(5, 9), spread_point(6, 9));
}

TEST(StressInterval, WithoutRangesIsTheOneRun) {
  const StressBounds bounds = stress_bounds(forms, layers, known(), 1123, course(), {1, 8, 64, 1e6});
  EXPECT_TRUE(bounds.settled);
  EXPECT_EQ(bounds.count, 16u);
  std::vector<StressLayer> at = layers;
  at[1].glass->relaxing.reference_K = reference_of_transition_K(at[1].glass->relaxing, 863, 5.0 / 60);
  for (std::size_t f = 0; f < forms.size(); ++f) {
    const auto found = CoolingStress(forms[f].form, forms[f].inner_radius_m, at, 1123, {3, 7, 4}).run(course()).back();
    for (std::size_t l = 0; l < 2; ++l) {
      for (std::size_t s = 0; s < layer_stresses.size(); ++s) {
        EXPECT_NEAR(bounds.forms[f].layers[l][s].low_Pa, found.layers[l].*layer_stresses[s], 1);
        EXPECT_NEAR(bounds.forms[f].layers[l][s].high_Pa, found.layers[l].*layer_stresses[s], 1);
      }
    }
    for (const double swing : bounds.forms[f].swing_Pa) EXPECT_NEAR(swing, 0, 1);
  }
}

TEST(StressInterval, SettlesWhateverTheSeed) {
  GlassRanges ranges = known();
  ranges.expansion_per_K = {-0.5e-6, 0.5e-6};
  ranges.liquid_ratio = {2, 4};
  ranges.activation_K = {6e4, 8e4};
  ranges.transition_K = {840, 880};
  const std::vector<SectionCase> one = {{StressForm::sphere, 4e-3}};
  const StressBounds first = stress_bounds(one, layers, ranges, 1173, course(), {1, 64, 1024, 1e6});
  const StressBounds other = stress_bounds(one, layers, ranges, 1173, course(), {2, 64, 1024, 1e6});
  EXPECT_TRUE(first.settled);
  EXPECT_TRUE(other.settled);
  EXPECT_NEAR(first.forms[0].layers[1][4].low_Pa, other.forms[0].layers[1][4].low_Pa, 2e6);
  EXPECT_NEAR(first.forms[0].layers[1][4].high_Pa, other.forms[0].layers[1][4].high_Pa, 2e6);
  EXPECT_EQ(first.forms[0].widest(), UncertainInput::expansion);
  const StressBounds again = stress_bounds(one, layers, ranges, 1173, course(), {1, 64, 1024, 1e6});
  EXPECT_EQ(again.forms[0].layers[1][4].low_Pa, first.forms[0].layers[1][4].low_Pa);
  EXPECT_FALSE(stress_bounds(one, layers, ranges, 1173, course(), {1, 8, 16, 1}).settled);
}

std::string refusal(const GlassRanges& ranges, const SetSize& size = {}, const std::vector<SectionCase>& of = forms) {
  try {
    static_cast<void>(stress_bounds(of, layers, ranges, 1123, course(), size));
  } catch (const std::domain_error& wrong) {
    return wrong.what();
  }
  return "";
}

TEST(StressInterval, RefusesWhatCannotBe) {
  EXPECT_EQ(refusal(known(), {}, {}), "Bounds need one form of the section at least.");
  GlassRanges ranges = known();
  ranges.layer = 0;
  EXPECT_EQ(refusal(ranges), "The layer whose glass is open is none of the layers, or has no glass.");
  ranges = known();
  ranges.liquid_ratio = {4, 2};
  EXPECT_EQ(refusal(ranges), "The range of the expansion of the liquid must go from a lower to a higher number.");
  ranges = known();
  ranges.transition_K.high = std::nan("");
  EXPECT_EQ(refusal(ranges), "The range of the transition must go from a lower to a higher number.");
  EXPECT_EQ(refusal(known(), {1, 4, 16, 1e6}), "A set has 8 members at least, and its largest size is not below the first.");
  EXPECT_EQ(refusal(known(), {1, 8, 16, 0}), "The move of an end that is small enough must be above 0 Pa.");
}

}  // namespace
}  // namespace heatwork::physics
