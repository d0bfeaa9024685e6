#include "physics/zirconia_sintering.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "physics/layer.h"

namespace heatwork::physics {
namespace {

constexpr double cold_K = 20.0 + zero_celsius_K;
constexpr double infinite = std::numeric_limits<double>::infinity();

ZirconiaState fired(double rate_K_per_s, double top_C, double hold_s = 0.0) {
  const double top_K = top_C + zero_celsius_K;
  const std::vector<double> times_s{0.0, (top_K - cold_K) / rate_K_per_s, (top_K - cold_K) / rate_K_per_s + hold_s};
  ZirconiaState state = start_zirconia({});
  advance_zirconia({}, state, times_s, std::vector<double>{cold_K, top_K, top_K});
  return state;
}

std::string refusal(const ZirconiaProperties& properties, const std::vector<double>& temperatures_K) {
  std::vector<double> times_s;
  for (std::size_t i = 0; i < temperatures_K.size(); ++i) times_s.push_back(60.0 * static_cast<double>(i));
  ZirconiaState state;
  try {
    advance_zirconia(properties, state, times_s, temperatures_K);
  } catch (const std::exception& refused) {
    EXPECT_EQ(state, ZirconiaState{});
    return refused.what();
  }
  return "";
}

TEST(ZirconiaSintering, NothingHappensWithoutHeat) {
  const ZirconiaState state = start_zirconia({});
  EXPECT_EQ(state.log_theta, -infinite);
  EXPECT_EQ(sintered_density({}, state.log_theta), MasterCurve{}.green_density);
  EXPECT_EQ(curve_standing(state), CurveStanding::outside);
}

TEST(ZirconiaSintering, TheSteadyRateIsThatOfASteadyRamp) {
  for (const double top_C : {1000.0, 1180.0, 1240.0, 1400.0}) {
    EXPECT_NEAR(densifying_rate_K_per_s(fired(5.0 / 60.0, top_C)), 5.0 / 60.0, 1e-9) << top_C;
  }
  // A hold where it is still porous slows the way it was heated; one where it is dense already does not.
  EXPECT_LT(densifying_rate_K_per_s(fired(5.0 / 60.0, 1180.0, 3600.0)), 4.0 / 60.0);
  EXPECT_NEAR(densifying_rate_K_per_s(fired(5.0 / 60.0, 1400.0, 7200.0)), 5.0 / 60.0, 1e-9);
}

TEST(ZirconiaSintering, StandsByTheRateItWasHeatedAt) {
  EXPECT_EQ(curve_standing(fired(2.0 / 60.0, 1500.0)), CurveStanding::measured);
  EXPECT_EQ(curve_standing(fired(20.0 / 60.0, 1500.0)), CurveStanding::measured);
  EXPECT_EQ(curve_standing(fired(21.0 / 60.0, 1500.0)), CurveStanding::extrapolated);
  EXPECT_EQ(curve_standing(fired(0.3 / 60.0, 1500.0)), CurveStanding::extrapolated);
  EXPECT_EQ(curve_standing(fired(190.0 / 60.0, 1500.0)), CurveStanding::extrapolated);
  EXPECT_EQ(curve_standing(fired(210.0 / 60.0, 1500.0)), CurveStanding::outside);
  EXPECT_EQ(density_error(CurveStanding::measured), 0.015);
  EXPECT_EQ(density_error(CurveStanding::outside), infinite);
}

TEST(ZirconiaSintering, IsCappedAndGrowsOn) {
  const ZirconiaState state = fired(5.0 / 60.0, 1530.0, 7200.0);
  EXPECT_EQ(sintered_density({}, state.log_theta), 0.990);
  EXPECT_NEAR(state.grain_um, 0.89, 0.05);
  EXPECT_NEAR(state.highest_K, 1530.0 + zero_celsius_K, 1e-9);
}

TEST(ZirconiaSintering, ItsStateGoesIntoNumbersAndBack) {
  const ZirconiaState state = fired(5.0 / 60.0, 1240.0);
  EXPECT_EQ(zirconia_state_from(canonical_values(state)), state);
  EXPECT_THROW(zirconia_state_from(std::vector<double>{1.0, 2.0}), std::invalid_argument);
}

TEST(ZirconiaSintering, RefusesInOneSentence) {
  EXPECT_EQ(refusal({}, {cold_K, 1701.0 + zero_celsius_K}),
            "the highest temperature in degrees Celsius, for the sintering of zirconia, is 1701; it must lie between -273.15 and 1700");
  ZirconiaProperties odd;
  odd.curve.green_density = 0.9;
  EXPECT_EQ(refusal(odd, {cold_K, cold_K}), "green_density is 0.9; it must lie between 0.3 and 0.75");
  odd = {};
  odd.curve.cap = std::nan("");
  EXPECT_EQ(refusal(odd, {cold_K, cold_K}), "cap is nan; it must lie between 0.9 and 1");
  odd = {};
  odd.grain.start_um = 0.0;
  EXPECT_EQ(refusal(odd, {cold_K, cold_K}), "start_um is 0; it must lie between 0.001 and 100");
  EXPECT_THROW(log_theta_of_density({}, 0.4), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
