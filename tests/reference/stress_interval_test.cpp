// Between which bounds the veneer's stress lies, by what is known of the pair: the verdict's three cases, and a pair that is bad whatever
// else.
#include "physics/stress_interval.h"

#include <gtest/gtest.h>

#include "evidence_row.h"
#include "stress_glasses.h"

namespace heatwork {
namespace {

using namespace reference;
using physics::UncertainInput;

constexpr double MPa = 1e6, first_limit_MPa = 10, second_limit_MPa = 20;
constexpr std::size_t highest = 4;

/// Crown of 0.7 mm zirconia and 1.5 mm porcelain, cooled from 900 C by 17 inside and 60 outside.
physics::StressIntervals crown(double pair_ppm, double within_ppm, double liquid_share, double activation_share) {
  physics::GlassRanges ranges;
  ranges.layer = 1;
  ranges.expansion_per_K = {-within_ppm * 1e-6, within_ppm * 1e-6};
  ranges.liquid_ratio = {3 * (1 - liquid_share), 3 * (1 + liquid_share)};
  ranges.activation_K = {7e4 * (1 - activation_share), 7e4 * (1 + activation_share)};
  ranges.transition_K = {550 + zero_celsius_K, 620 + zero_celsius_K};
  CoolingCourse course;
  course.inner = FaceCooling{17, 0};
  course.outer = FaceCooling{60, 0};
  const std::vector<physics::SectionCase> forms = {{StressForm::sphere, 4e-3}};
  const auto bounds = physics::stress_bounds(forms, std::vector{zirconia(), porcelain(1.5, 10.5 - pair_ppm)}, ranges, 1173.15, course);
  EXPECT_TRUE(bounds.settled);
  return bounds.forms.front();
}

constexpr double third = 1.0 / 3, published_activation = 1.5 / 7;  // 2 to 4 times the solid; 5.5e4 to 8.5e4 K

TEST(stress_interval, OpenPairCannotBeToldAndNamesItsExpansion) {
  const auto found = crown(0.75, 0.5, third, published_activation);
  Evidence row("pair at +0.75 +- 0.5 ppm/K: from inside the first limit to beyond the second", "MPa");
  row.above(first_limit_MPa, found.layers[1][highest].low_Pa / MPa);
  row.above(found.layers[1][highest].high_Pa / MPa, second_limit_MPa);
  EXPECT_EQ(found.widest(), UncertainInput::expansion);
}

TEST(stress_interval, KnownPairNamesTheLiquid) {
  const auto found = crown(0.75, 0.1, third, published_activation);
  Evidence row("pair at +0.75 +- 0.1 ppm/K: liquid of 2 to 4 times the solid still moves it by +- 15 MPa, and it cannot be told", "MPa");
  row.near(0.5 * std::abs(found.swing_Pa[static_cast<std::size_t>(UncertainInput::liquid_expansion)]) / MPa, 15, 3);
  row.above(first_limit_MPa, found.layers[1][highest].low_Pa / MPa);
  row.above(found.layers[1][highest].high_Pa / MPa, second_limit_MPa);
  EXPECT_EQ(found.widest(), UncertainInput::liquid_expansion);
}

TEST(stress_interval, KnownLiquidAndActivationGiveALevel) {
  const auto found = crown(0.75, 0.1, 0.05, 0.1);
  Evidence row("pair at +0.75 +- 0.1 ppm/K, liquid +- 5 %, activation +- 10 %: not beyond the second limit", "MPa");
  row.above(second_limit_MPa, found.layers[1][highest].high_Pa / MPa);
}

TEST(stress_interval, BadPairIsBadWhateverElse) {
  Evidence row("pair at -0.5: all of the interval beyond the second limit, known as above step by step", "MPa");
  for (const auto& [within, liquid, activation] :
       {std::array{0.5, third, published_activation}, {0.1, third, published_activation}, {0.1, 0.05, 0.1}})
    row.above(crown(-0.5, within, liquid, activation).layers[1][highest].low_Pa / MPa, second_limit_MPa);
}

}  // namespace
}  // namespace heatwork
