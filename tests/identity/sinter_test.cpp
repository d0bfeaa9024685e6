// A frame of zirconia through its sintering: the identities of the comparison, and a chain of firings that equals one state carried on.
#include <gtest/gtest.h>

#include <cmath>

#include "demo_firing.h"
#include "firing/rehearsal.h"

namespace heatwork {
namespace {

using firing::Comparison;
using tests::makers_own;

trade::ResolvedFiring sintering() {
  return trade::load_firing(std::filesystem::path(HEATWORK_SOURCE_DIR) / "tests" / "planted" / "sound-sinter.toml", tests::ambient_at);
}

Comparison compared(const trade::ResolvedFiring& firing) {
  return firing::rehearse(firing).compared.at(0);
}

TEST(sinter, the_comparison_keeps_its_identities) {
  const Comparison same = compared(makers_own(sintering()));
  EXPECT_EQ(word(same.quantity), "ln Theta");
  ASSERT_TRUE(same.shift_K && same.hold_s);
  EXPECT_NEAR(*same.shift_K, 0, 0.1);
  EXPECT_NEAR(*same.hold_s, 0, 1);
  trade::ResolvedFiring high = makers_own(sintering());
  high.furnace.display_error->error.value = quantity::kelvins(12);
  EXPECT_NEAR(compared(high).shift_K.value(), -12, 0.5);
  trade::ResolvedFiring shorter = makers_own(sintering());
  shorter.program.heating.back().hold.value = shorter.program.heating.back().hold.value - quantity::seconds(400);
  EXPECT_NEAR(compared(shorter).hold_s.value(), -400, 1);
}

TEST(sinter, makes_the_frame_dense_with_grains_as_the_law_has_it) {
  const firing::Rehearsal rehearsal = firing::rehearse(sintering());
  ASSERT_FALSE(rehearsal.firing.pieces[0].points.empty());
  for (const firing::PointResult& point : rehearsal.firing.pieces[0].points) {
    ASSERT_TRUE(point.curve);
    EXPECT_EQ(*point.curve, physics::CurveStanding::measured);
    EXPECT_TRUE(point.decides);
    EXPECT_EQ(point.sintered_density, 0.99);
    EXPECT_GT(point.grain_um, 0.6);
    EXPECT_LT(point.grain_um, 1.0);
    EXPECT_NEAR(point.density_trace.front(), 0.44385, 1e-9);
    EXPECT_EQ(point.density_trace.back(), point.sintered_density);
  }
}

TEST(sinter, refuses_more_heat_than_anything_is_known_of_and_says_of_which_piece) {
  trade::ResolvedFiring hot = sintering();
  hot.furnace.maximum.value = quantity::Temperature::celsius(1800);
  hot.furnace.heating.gain.value = quantity::HeatingRate::si(2);
  hot.program.heating.back().to.value = quantity::Temperature::celsius(1720);
  firing::RehearseOptions alone;
  alone.compare = false;
  try {
    static_cast<void>(firing::rehearse(hot, alone));
    FAIL() << "rehearsed";
  } catch (const trade::Mistake& mistake) {
    EXPECT_NE(std::string(mistake.what()).find("piece-frame-14.toml:18:12: piece frame-14 gets to 17"), std::string::npos)
        << mistake.what();
    EXPECT_NE(mistake.sentence().find("; of the sintering of zirconia nothing is known above 1700 °C: fire it cooler"), std::string::npos)
        << mistake.what();
  }
}

// Half-sintered, then sintered: both firings named are the same as the second begun with the state after the first.
TEST(sinter, a_chain_of_firings_equals_the_state_carried_on) {
  trade::ResolvedFiring first = sintering();
  first.program.heating.back().to.value = quantity::Temperature::celsius(1187);
  first.program.heating.back().hold.value = quantity::minutes(7);
  firing::RehearseOptions alone;
  alone.compare = false;
  const firing::Rehearsal half = firing::rehearse(first, alone);
  EXPECT_LT(half.firing.pieces[0].points[0].sintered_density, 0.75);
  EXPECT_GT(half.firing.pieces[0].points[0].sintered_density, 0.46);
  trade::ResolvedFiring chained = sintering();
  chained.earlier = {first};
  const firing::Rehearsal replayed = firing::rehearse(chained, alone);
  firing::RehearseOptions carrying = alone;
  carrying.start = half.firing.end;
  const firing::Rehearsal carried = firing::rehearse(sintering(), carrying);
  ASSERT_EQ(replayed.firing.end.size(), carried.firing.end.size());
  for (std::size_t i = 0; i < replayed.firing.end[0].points.size(); ++i) {
    const auto &one = *replayed.firing.end[0].points[i].zirconia, &other = *carried.firing.end[0].points[i].zirconia;
    EXPECT_NEAR(one.log_theta, other.log_theta, 1e-9);
    EXPECT_NEAR(one.grain_um, other.grain_um, 1e-9);
  }
}

}  // namespace
}  // namespace heatwork
