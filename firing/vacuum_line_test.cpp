#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "firing/chamber_case.h"

namespace heatwork::firing {
namespace {

using namespace chamber_case;

TEST(Vacuum, LevelIsReachedAfterTheClosedFormTimeAndKept) {
  const ChamberHistory h = fired(program(), furnace());
  const double expected = 11.3 * std::log((101325.0 - 2700) / (5800 - 2700));
  EXPECT_NEAR(time_of(h, ChamberEvent::vacuum_reached) - time_of(h, ChamberEvent::vacuum_started), expected, 1e-9);
  EXPECT_NEAR(at(h, h.pressure_Pa, time_of(h, ChamberEvent::released) - 1), 5800, 1e-6);
  EXPECT_NEAR(h.lowest_pressure_Pa, 5800, 1e-6);
  EXPECT_FALSE(h.level_never_reached);
}

TEST(Vacuum, APumpWithoutALevelRunsToItsFloorWhichALeakLifts) {
  trade::Furnace f = furnace();
  f.ability.vacuum_level_settable = given(false);
  f.pump.leak = given(quantity::PressureRate::si(130));
  const ChamberHistory h = fired(program(), f);
  EXPECT_NEAR(h.lowest_pressure_Pa, 2700 + 130 * 11.3, 1);
  f.pump.leak = given(quantity::PressureRate::si(700));
  const ChamberHistory leaky = fired(program(), f);
  EXPECT_TRUE(leaky.level_never_reached);
  EXPECT_EQ(leaky.find(ChamberEvent::vacuum_reached), nullptr);
  EXPECT_NEAR(leaky.lowest_pressure_Pa, 2700 + 700 * 11.3, 1);
}

TEST(Vacuum, AirComesBackExponentially) {
  const ChamberHistory h = fired(program(), furnace());
  const double released = time_of(h, ChamberEvent::released);
  for (const double after : {1.0, 2.1, 5.0}) {
    const double expected = 101325 + (5800 - 101325) * std::exp(-after / 2.1);
    EXPECT_NEAR(at(h, h.pressure_Pa, released + after) / expected, 1, 0.006);
  }
}

TEST(Vacuum, IsKeptDuringPartOfTheHold) {
  trade::Program p = program();
  p.vacuum->hold_under_vacuum = given(seconds(23));
  const ChamberHistory h = fired(p, furnace());
  EXPECT_NEAR(time_of(h, ChamberEvent::released) - time_of(h, ChamberEvent::hold_begins), 23, 1e-9);
  EXPECT_NEAR(time_of(h, ChamberEvent::hold_ends) - time_of(h, ChamberEvent::hold_begins), 67, 1e-9);
  EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::released)), fired(program(), furnace()).display_at(time_of(h, ChamberEvent::released)),
              0.06);
}

TEST(Vacuum, EndsInsideARampWhereToSaysSo) {
  trade::Program p = program();
  p.vacuum->to = given(Temperature::celsius(711));
  const ChamberHistory h = fired(p, furnace());
  EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::released)), 711, 1e-4);
}

TEST(Vacuum, WithoutAnEndStaysUntilTheChamberOpens) {
  trade::Program p = program();
  p.vacuum->to.reset();
  p.cooling.push_back({given(Temperature::celsius(700)), {}, given(Fraction::si(0)), {}});
  const ChamberHistory h = fired(p, furnace());
  EXPECT_NEAR(time_of(h, ChamberEvent::released), time_of(h, ChamberEvent::open), 1e-9);
  p.cooling[0].opening = given(Fraction::si(0.2));
  const ChamberHistory opened = fired(p, furnace());
  EXPECT_NEAR(time_of(opened, ChamberEvent::released), time_of(opened, ChamberEvent::hold_ends), 1e-9);
}

TEST(Vacuum, StagesMayHaveTheirOwnLevel) {
  trade::Program p = program();
  p.heating[0].to = given(Temperature::celsius(611));
  p.heating[0].vacuum_level = given(millibars(210));
  p.heating.push_back({given(Temperature::celsius(809)), given(kelvins_per_minute(47)), given(seconds(67)), {}});
  const ChamberHistory h = fired(p, furnace());
  const double first_ends = 331 + (611 - 441) / (47.0 / 60);
  EXPECT_NEAR(at(h, h.pressure_Pa, first_ends + 40), 21000, 1);
  const double fall = 11.3 * std::log((21000.0 - 2700) / (5800 - 2700));
  EXPECT_NEAR(at(h, h.pressure_Pa, first_ends + 67 + 15 + fall + 5), 5800, 1);
}

TEST(Vacuum, HeatingWaitsForTheLevelWhereTheFurnaceDoes) {
  trade::Furnace f = furnace();
  f.ability.waits_for_vacuum = given(true);
  const ChamberHistory h = fired(program(), f);
  const double started = time_of(h, ChamberEvent::vacuum_started), reached = time_of(h, ChamberEvent::vacuum_reached);
  for (double t = started + 0.5; t < reached; t += 1) EXPECT_NEAR(h.display_at(t), 463, 2.1) << t;
  const double delay = time_of(h, ChamberEvent::top) - time_of(fired(program(), furnace()), ChamberEvent::top);
  EXPECT_NEAR(delay, reached - started, 1.0);
}

TEST(Vacuum, HeatingGivesUpWaitingAndSaysSo) {
  trade::Furnace f = furnace();
  f.ability.waits_for_vacuum = given(true);
  f.pump.leak = given(quantity::PressureRate::si(700));
  const ChamberHistory h = fired(program(), f);
  EXPECT_TRUE(h.level_never_reached);
  const double delay = time_of(h, ChamberEvent::top) - time_of(fired(program(), furnace()), ChamberEvent::top);
  EXPECT_NEAR(delay, 180, 2);
}

TEST(Vacuum, StartsWhenTheChamberShutsWhereItIsHotterAlready) {
  trade::Program p = program();
  p.vacuum->from = given(Temperature::celsius(430));
  const ChamberHistory h = fired(p, furnace());
  EXPECT_NEAR(time_of(h, ChamberEvent::vacuum_started), 310, 1e-9);
}

TEST(Vacuum, NeverStartsAboveTheTop) {
  trade::Program p = program();
  p.vacuum->from = given(Temperature::celsius(810));
  p.vacuum->to.reset();
  const ChamberHistory h = fired(p, furnace());
  EXPECT_EQ(h.find(ChamberEvent::vacuum_started), nullptr);
  EXPECT_EQ(h.lowest_pressure_Pa, 101325);
}

}  // namespace
}  // namespace heatwork::firing
