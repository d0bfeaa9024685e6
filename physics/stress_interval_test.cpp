#include "physics/stress_interval.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <thread>

#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

const StressLayer core = solid(0.7, 205, 0.3, 10.5, 6050, 2.5, 580);

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

const std::vector<StressLayer> layers = {core, glass_layer(1.5)};
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
  const StressBounds bounds = stress_bounds(forms, layers, known(), 1123, course(), {1, 12, 64, 1e6});
  EXPECT_TRUE(bounds.settled);
  EXPECT_EQ(bounds.count, 24u);
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
  // So small a move that no surface stands for the members: the ends of 2048 of them as they are.
  const StressBounds plain = stress_bounds(one, layers, ranges, 1173, course(), {3, 2048, 2048, 1});
  for (const std::size_t figure : {4U, 5U, 6U})
    for (const StressBounds* bounds : {&first, &other}) {
      EXPECT_NEAR(bounds->forms[0].layers[1][figure].low_Pa, plain.forms[0].layers[1][figure].low_Pa, 1e6) << figure;
      EXPECT_NEAR(bounds->forms[0].layers[1][figure].high_Pa, plain.forms[0].layers[1][figure].high_Pa, 1e6) << figure;
    }
  EXPECT_LT(first.count, 512u);
  EXPECT_EQ(first.forms[0].widest(), UncertainInput::expansion);
  const StressBounds again = stress_bounds(one, layers, ranges, 1173, course(), {1, 64, 1024, 1e6});
  EXPECT_EQ(again.forms[0].layers[1][4].low_Pa, first.forms[0].layers[1][4].low_Pa);
  EXPECT_FALSE(stress_bounds(one, layers, ranges, 1173, course(), {1, 12, 24, 1}).settled);
}

TEST(StressInterval, IsTheSameHoweverItsPartsAreDone) {
  GlassRanges ranges = known();
  ranges.expansion_per_K = {-0.5e-6, 0.5e-6};
  CoolingCourse along = course();
  along.profile = SectionProfile{{0, 1e-3, 2.2e-3}, {0, 60, 200}, {1100, 1090, 1080, 800, 790, 780, 500, 500, 500}, {}, {}};
  along.from_liquid = true;
  const auto backwards = [](std::size_t count, const std::function<void(std::size_t)>& part) {
    std::thread other([&] {
      for (std::size_t i = count; i-- > count / 2;) part(i);
    });
    for (std::size_t i = count / 2; i-- > 0;) part(i);
    other.join();
  };
  const SetSize size{3, 16, 32, 1e6};
  const StressBounds one = stress_bounds(forms, layers, ranges, 1123, along, size);
  const StressBounds other = stress_bounds(forms, layers, ranges, 1123, along, size, {3.0, 7, 4}, backwards);
  ASSERT_EQ(one.count, other.count);
  for (std::size_t f = 0; f < forms.size(); ++f) {
    EXPECT_EQ(one.forms[f].swing_Pa, other.forms[f].swing_Pa);
    EXPECT_GT(one.forms[f].swing_Pa[0], 1e6);
    for (std::size_t l = 0; l < 2; ++l) {
      for (std::size_t s = 0; s < stress_figures; ++s) {
        EXPECT_EQ(one.forms[f].layers[l][s].low_Pa, other.forms[f].layers[l][s].low_Pa);
        EXPECT_EQ(one.forms[f].layers[l][s].high_Pa, other.forms[f].layers[l][s].high_Pa);
      }
    }
  }
}

TEST(StressInterval, OfACoolingInTwoIsThatOfOne) {
  GlassRanges ranges = known();
  ranges.expansion_per_K = {-0.5e-6, 0.5e-6};
  ranges.liquid_ratio = {2.5, 3.5};
  CoolingCourse whole = course();
  whole.profile = SectionProfile{{0, 1e-3, 2.2e-3}, {0, 60, 200}, {1100, 1090, 1080, 800, 790, 780, 500, 500, 500}, {}, {60}};
  whole.from_liquid = true;
  EarlierCooling first{forms, layers, 1100, whole, {}};
  first.course.inner.reset();
  first.course.outer.reset();
  first.course.profile = SectionProfile{{0, 1e-3, 2.2e-3}, {0, 60}, {1100, 1090, 1080, 800, 790, 780}, {}, {}};
  CoolingCourse rest = whole;
  rest.from_liquid = false;
  rest.profile = SectionProfile{{0, 1e-3, 2.2e-3}, {60, 200}, {800, 790, 780, 500, 500, 500}, {}, {}};
  const SetSize size{3, 16, 16, 1e6};
  const StressBounds one = stress_bounds(forms, layers, ranges, 1100, whole, size);
  const StressBounds two = stress_bounds(forms, layers, ranges, 800, rest, size, {3.0, 7, 4}, in_turn, {&first, 1});
  for (std::size_t f = 0; f < forms.size(); ++f) {
    constexpr std::size_t highest = 4;
    EXPECT_NEAR(two.forms[f].layers[1][highest].low_Pa, one.forms[f].layers[1][highest].low_Pa, 2e4);
    EXPECT_NEAR(two.forms[f].layers[1][highest].high_Pa, one.forms[f].layers[1][highest].high_Pa, 2e4);
    EXPECT_GT(one.forms[f].layers[1][highest].high_Pa - one.forms[f].layers[1][highest].low_Pa, 2e6);
  }
  first.forms.clear();
  EXPECT_THROW((void)stress_bounds(forms, layers, ranges, 800, rest, size, {3.0, 7, 4}, in_turn, {&first, 1}), std::domain_error);
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
  EXPECT_EQ(refusal(known(), {1, 11, 16, 1e6}), "A set has 12 members at least, and its largest size is not below the first.");
  EXPECT_EQ(refusal(known(), {1, 12, 16, 0}), "The move of an end that is small enough must be above 0 Pa.");
}

}  // namespace
}  // namespace heatwork::physics
