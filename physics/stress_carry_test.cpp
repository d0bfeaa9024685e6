#include "physics/stress_carry.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/cooling_error.h"
#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

constexpr double MPa = 1e6, hot_K = 1073.15, radius_m = 4e-3;
constexpr std::array<StressForm, 4> forms = {StressForm::plate_free, StressForm::plate_flat, StressForm::cylinder, StressForm::sphere};
constexpr StressAccuracy nominal = {1, 9, 5};

std::vector<StressLayer> crown(double veneer_mm) {
  return {solid(0.7, 205, 0.3, 10.5, 6050, 2.5, 580), glass_layer(veneer_mm)};
}

CoolingCourse cooling() {
  CoolingCourse course;
  course.inner = FaceCooling{17, 0};
  course.outer = FaceCooling{120, 0};
  return course;
}

std::vector<double> frozen(StressForm form, const std::vector<StressLayer>& layers, const StressAccuracy& accuracy = nominal) {
  CoolingStress piece(form, radius_m, layers, hot_K, accuracy);
  piece.run(cooling());
  return piece.state();
}

/// What is seen of a state: nothing happens any more.
CoolingReport seen(StressForm form, const std::vector<StressLayer>& layers, const std::vector<double>& state,
                   const StressAccuracy& accuracy = nominal) {
  CoolingStress piece(form, radius_m, layers, 300, accuracy);
  piece.resume(state);
  CoolingCourse still;
  still.profile = SectionProfile{{0, 1}, {0, 1}, {298.15, 298.15, 298.15, 298.15}, {}, {}};
  return piece.run(still).back();
}

const std::vector<LayerOrigin> the_same = {{0, 0}, {1, 0}};

TEST(StressCarry, TheSamePieceKeepsItsState) {
  for (const StressForm form : forms) {
    const auto layers = crown(1.5);
    const auto state = frozen(form, layers);
    const auto carried = carried_stress({form, radius_m, layers, nominal, state}, radius_m, layers, the_same, nominal);
    ASSERT_EQ(carried.size(), state.size());
    for (std::size_t i = 0; i < state.size(); ++i) EXPECT_NEAR(carried[i], state[i], 1e-9 * std::max(1e6, std::abs(state[i])));
  }
}

TEST(StressCarry, IsTheSameOnOtherPoints) {
  for (const StressForm form : forms) {
    const auto layers = crown(1.5);
    const auto state = frozen(form, layers);
    constexpr StressAccuracy rough = {2, 7, 4};
    const auto carried = carried_stress({form, radius_m, layers, nominal, state}, radius_m, layers, the_same, rough);
    const CoolingReport one = seen(form, layers, state), other = seen(form, layers, carried, rough);
    EXPECT_NEAR(one.layers[1].outer_hoop_Pa / MPa, other.layers[1].outer_hoop_Pa / MPa, 0.1);
    EXPECT_NEAR(one.layers[1].inner_hoop_Pa / MPa, other.layers[1].inner_hoop_Pa / MPa, 0.1);
  }
}

// By hand: what the ground layer bore must be borne by what is left, evenly in a flat plate of one strain.
TEST(StressCarry, GrindingIsBalancedAnew) {
  const auto before = crown(1.5), after = crown(1.0);
  for (const StressForm form : forms) {
    const auto state = frozen(form, before);
    const CoolingReport ground =
        seen(form, after, carried_stress({form, radius_m, before, nominal, state}, radius_m, after, the_same, nominal));
    EXPECT_LT(ground.imbalance, 1e-8);
    EXPECT_GT(largest_change_Pa(ground, seen(form, before, state)), 1 * MPa);
  }
  const auto state = frozen(StressForm::plate_flat, before);
  CoolingStress was(StressForm::plate_flat, 0, before, 300);
  const CoolingReport whole = seen(StressForm::plate_flat, before, state);
  const CoolingReport ground =
      seen(StressForm::plate_flat, after,
           carried_stress({StressForm::plate_flat, radius_m, before, nominal, state}, radius_m, after, the_same, nominal));
  const double core_stiff = 205e9 / 0.7, glass_stiff = 65e9 / 0.79;
  const double core_rise = ground.layers[0].middle_hoop_Pa - whole.layers[0].middle_hoop_Pa;
  const double glass_rise = ground.layers[1].inner_hoop_Pa - whole.layers[1].inner_hoop_Pa;
  EXPECT_GT(std::abs(core_rise), 0.5 * MPa);
  EXPECT_NEAR(core_rise / core_stiff, glass_rise / glass_stiff, 1e-3 * std::abs(core_rise) / core_stiff);
}

TEST(StressCarry, GrindingInsideTakesTheInnerFace) {
  const auto before = crown(1.5);
  auto after = before;
  after[0].heat.thickness_m = 0.5e-3;
  const std::vector<LayerOrigin> inside = {{0, 0.2e-3}, {1, 0}};
  const auto state = frozen(StressForm::sphere, before);
  const auto carried = carried_stress({StressForm::sphere, radius_m, before, nominal, state}, radius_m + 0.2e-3, after, inside, nominal);
  CoolingStress piece(StressForm::sphere, radius_m + 0.2e-3, after, 300, nominal);
  piece.resume(carried);
  EXPECT_EQ(piece.state(), carried);
}

TEST(StressCarry, WhatIsLaidOnIsFreeOfStressAndForgottenOnceLiquid) {
  auto thick = crown(1.5);
  thick.push_back(glass_layer(0.3));
  const auto before = crown(1.0);
  const std::vector<LayerOrigin> laid_on = {{0, 0}, {1, 0}, {std::nullopt, 0}};
  for (const StressForm form : forms) {
    const auto state = carried_stress({form, radius_m, before, nominal, frozen(form, before)}, radius_m, thick, laid_on, nominal);
    // The glass is thicker by half, and a film lies on it.
    const CoolingReport at = seen(form, thick, state);
    EXPECT_LT(at.imbalance, 1e-8);
    CoolingCourse firing = cooling();
    firing.profile = SectionProfile{{0, 1}, {0, 400, 460, 461}, {298, 298, hot_K, hot_K, hot_K, hot_K, hot_K, hot_K}, {}, {400, 460}};
    CoolingStress refired(form, radius_m, thick, 300, nominal), anew(form, radius_m, thick, hot_K, nominal);
    refired.resume(state);
    const CoolingReport one = refired.run(firing).back(), other = anew.run(cooling()).back();
    for (std::size_t l = 0; l < 3; ++l) EXPECT_NEAR(one.layers[l].outer_hoop_Pa / MPa, other.layers[l].outer_hoop_Pa / MPa, 0.1);
  }
}

std::string refusal(const std::vector<StressLayer>& layers, const std::vector<LayerOrigin>& origins, std::vector<double> state = {}) {
  const auto before = crown(1.5);
  if (state.empty()) state = frozen(StressForm::plate_flat, before);
  try {
    static_cast<void>(carried_stress({StressForm::plate_flat, 0, before, nominal, state}, 0, layers, origins, nominal));
  } catch (const std::domain_error& wrong) {
    return wrong.what();
  }
  return "";
}

TEST(StressCarry, RefusesWhatCannotBe) {
  EXPECT_EQ(refusal(crown(1), the_same), "");
  EXPECT_EQ(refusal(crown(1), {{0, 0}}), "Every layer needs to be told where it comes from.");
  EXPECT_EQ(refusal(crown(1), {{0, 0}, {2, 0}}), "A layer comes from one that never was.");
  EXPECT_EQ(refusal(crown(1), {{0, 0.7e-3}, {1, 0}}), "Of a layer less than its thickness can be ground away.");
  EXPECT_EQ(refusal(crown(1), {{1, 0}, {0, 0}}), "A layer that was fired before must relax by the same spectra.");
  auto other = crown(1);
  other[1].glass->shear = {{1, 1}};
  EXPECT_EQ(refusal(other, the_same), "A layer that was fired before must relax by the same spectra.");
  EXPECT_EQ(refusal(crown(1), the_same, {300}), "The stored state is too short for these layers.");
  auto warm = frozen(StressForm::plate_flat, crown(1.5));
  warm[0] += 1;
  EXPECT_EQ(refusal(crown(1), the_same, warm), "A piece that goes to the bench must be of one temperature.");
}

}  // namespace
}  // namespace heatwork::physics
