#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "firing/chamber_case.h"

namespace heatwork::firing {
namespace {

using namespace chamber_case;

// ---- the shape of a history

TEST(ChamberHistory, ColumnsAreWholeAndTimeRises) {
  const ChamberHistory h = fired(program(), furnace());
  const std::size_t n = h.time_s.size();
  EXPECT_GT(n, 100U);
  EXPECT_LT(n, 500U);
  for (const auto* column : {&h.asked_C, &h.display_C, &h.chamber_C, &h.pressure_Pa, &h.opening}) ASSERT_EQ(column->size(), n);
  ASSERT_EQ(h.phase.size(), n);
  for (std::size_t i = 1; i < n; ++i) {
    EXPECT_GT(h.time_s[i], h.time_s[i - 1]);
    EXPECT_GE(static_cast<int>(h.phase[i]), static_cast<int>(h.phase[i - 1]));
  }
  for (std::size_t i = 1; i < h.moments.size(); ++i) EXPECT_GE(h.moments[i].time_s, h.moments[i - 1].time_s);
}

TEST(ChamberHistory, MomentsStandAtTheirTimes) {
  const ChamberHistory h = fired(program(), furnace());
  EXPECT_NEAR(time_of(h, ChamberEvent::closed), 233 + 77, 1e-9);
  EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::vacuum_started)), 463, 1e-4);
  EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::top)), 809, 1e-4);
  EXPECT_NEAR(time_of(h, ChamberEvent::hold_ends) - time_of(h, ChamberEvent::hold_begins), 67, 1e-9);
  EXPECT_NEAR(time_of(h, ChamberEvent::released), time_of(h, ChamberEvent::top), 1e-9);
  EXPECT_NEAR(h.display_C.back(), 302, 1e-6);
  EXPECT_NEAR(time_of(h, ChamberEvent::end), h.time_s.back(), 1e-9);
}

TEST(ChamberHistory, SensorFollowsTheChamberByItsLag) {
  // Between points, lag x slope of the display is chamber less sensor; checked by the trapezoid rule over every short stretch.
  trade::Furnace f = furnace();
  const ChamberHistory h = fired(program(), f);
  const double lag = f.sensor_lag.value.si();
  for (std::size_t i = 1; i < h.time_s.size(); ++i) {
    const double dt = h.time_s[i] - h.time_s[i - 1];
    const double drive = 0.5 * (h.chamber_C[i] + h.chamber_C[i - 1] - h.display_C[i] - h.display_C[i - 1]);
    EXPECT_NEAR(lag * (h.display_C[i] - h.display_C[i - 1]), drive * dt, 0.08 * dt + 1e-6) << "at " << h.time_s[i] << " s";
  }
}

TEST(ChamberHistory, RepeatsToTheByte) {
  const ChamberHistory a = fired(program(), furnace());
  const ChamberHistory b = fired(program(), furnace());
  EXPECT_EQ(a.time_s, b.time_s);
  EXPECT_EQ(a.chamber_C, b.chamber_C);
  EXPECT_EQ(a.pressure_Pa, b.pressure_Pa);
}

// ---- heating

TEST(Heating, FullPowerTakesTheClosedFormTime) {
  trade::Furnace f = furnace();
  f.sensor_lag = given(seconds(0));
  f.heating.overshoot = given(kelvins(0));
  f.heating.gain = given(HeatingRate::si(2.4));
  f.heating.loss = given(Frequency::si(0.0012));
  trade::Program p = program();
  p.vacuum.reset();
  p.heating[0].to = given(Temperature::celsius(900));
  p.heating[0].rate = given(HeatingRate::si(20));
  const ChamberHistory h = fired(p, f);
  // The handbook's figures: 1200 W, 500 J/K, 0.6 W/K; here from 441 to 900 with the room at 22 °C.
  const double limit = 22 + 2.4 / 0.0012;
  const double expected = std::log((limit - 441) / (limit - 900)) / 0.0012;
  EXPECT_NEAR(time_of(h, ChamberEvent::top) - (233 + 77 + 21), expected, 1e-6);
  EXPECT_TRUE(h.held_back);
}

TEST(Heating, LosesTheLineWherePowerNoLongerAllowsTheRate) {
  trade::Furnace f = furnace();
  f.sensor_lag = given(seconds(0));
  f.heating.gain = given(HeatingRate::si(1.9));
  trade::Program p = program();
  p.vacuum.reset();
  p.heating[0].rate = given(HeatingRate::si(0.8));
  p.heating[0].to = given(Temperature::celsius(900));
  p.heating[0].hold = given(seconds(0));
  const ChamberHistory h = fired(p, f);
  const double lost_C = 22 + (1.9 - 0.8) / 0.0017;
  const double limit = 22 + 1.9 / 0.0017;
  const double expected = (lost_C - 441) / 0.8 + std::log((limit - lost_C) / (limit - 900)) / 0.0017;
  EXPECT_NEAR(time_of(h, ChamberEvent::top) - 331, expected, 1e-6);
  EXPECT_TRUE(h.held_back);
  EXPECT_NEAR(h.largest_lag_behind_asked_K, 900 - h.display_at(331 + 459 / 0.8), 0.05);
}

TEST(Heating, PowerGoesWithTheSquareOfTheMains) {
  trade::Furnace f = furnace();
  f.heating.mains = given(quantity::Voltage::si(0.9 * 231));
  EXPECT_NEAR(conditions(f).gain_K_per_s, 0.81 * 3.1, 1e-12);
  EXPECT_NEAR(conditions_true(f, {}, 101325).gain_K_per_s, 3.1, 1e-12);
}

TEST(Heating, KeepsTheAskedRateOnTheDisplay) {
  const ChamberHistory h = fired(program(), furnace());
  const double from = h.display_at(450), to = h.display_at(650);
  EXPECT_NEAR((to - from) / 200, 47.0 / 60, 1e-6);
  EXPECT_FALSE(h.held_back);
  EXPECT_NEAR(at(h, h.asked_C, 331 + 100), 441 + 100 * 47.0 / 60, 1e-6);
  EXPECT_LT(h.largest_lag_behind_asked_K, 4.7 * 47 / 60 + 0.1);
}

TEST(Heating, ChamberLeadsTheDisplayByLagTimesRateOnARamp) {
  const ChamberHistory h = fired(program(), furnace());
  EXPECT_NEAR(at(h, h.chamber_C, 600) - h.display_at(600), 4.7 * 47 / 60, 1e-4);
}

TEST(Heating, DisplayOvershootsByTheFurnacesOwnAmountAndComesBack) {
  for (const double overshoot : {0.0, 0.6, 1.9, 4.3}) {
    trade::Furnace f = furnace();
    f.heating.overshoot = given(kelvins(overshoot));
    const ChamberHistory h = fired(program(), f);
    double highest = 0;
    for (const double display : h.display_C) highest = std::max(highest, display);
    EXPECT_NEAR(highest - 809, overshoot, 0.06) << "overshoot " << overshoot;
    EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::hold_ends)), 809, 0.2 * overshoot + 0.001);
  }
}

TEST(Heating, ChamberAtTheHoldIsTheDisplayLessItsError) {
  trade::Furnace f = furnace();
  f.display_error = trade::DisplayError{given(kelvins(12)), given(kelvins(3)), "invented"};
  trade::Program p = program();
  p.heating[0].hold = given(seconds(300));
  const ChamberHistory h = fired(p, f);
  EXPECT_NEAR(at(h, h.chamber_C, time_of(h, ChamberEvent::hold_ends)), 809 - 12, 0.001);
  EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::hold_ends)), 809, 0.001);
}

TEST(Heating, ADisplayErrorShiftsTheWholeChamberBeforeCooling) {
  trade::Furnace with_error = furnace();
  with_error.display_error = trade::DisplayError{given(kelvins(12)), given(kelvins(3)), ""};
  const ChamberHistory a = fired(program(), furnace());
  const ChamberHistory b = fired(program(), with_error);
  for (double t = 0; t < time_of(a, ChamberEvent::hold_ends); t += 7.3)
    EXPECT_NEAR(at(b, b.chamber_C, t) - at(a, a.chamber_C, t), -12, 0.15) << t;
}

TEST(Heating, AnySuccessionOfStagesIsRun) {
  trade::Program p = program();
  p.vacuum.reset();
  p.heating.clear();
  double to = 450;
  for (int i = 0; i < 14; ++i) {
    p.heating.push_back({given(Temperature::celsius(to)), given(kelvins_per_minute(11 + 7 * i)), given(seconds(i % 3 * 17)), {}});
    to += i % 4 == 3 ? 0.7 : 31.0;
  }
  const ChamberHistory h = fired(p, furnace());
  double highest = 0;
  for (const double display : h.display_C) highest = std::max(highest, display);
  EXPECT_NEAR(highest, p.heating.back().to.value.celsius(), 2.0);
  for (std::size_t i = 1; i < h.time_s.size(); ++i) {
    EXPECT_LT(std::abs(h.chamber_C[i] - h.chamber_C[i - 1]), 4.0 * (h.time_s[i] - h.time_s[i - 1]) + 1e-6) << h.time_s[i];
  }
}

TEST(Heating, DryOnlyHasNoTop) {
  trade::Program p = program();
  p.heating.clear();
  p.vacuum.reset();
  const ChamberHistory h = fired(p, furnace());
  EXPECT_EQ(h.find(ChamberEvent::top), nullptr);
  EXPECT_NEAR(time_of(h, ChamberEvent::open), 331, 1e-9);
  EXPECT_THROW(static_cast<void>(with_hold_changed(h, 5)), std::domain_error);
}

TEST(Heating, AnOpenChamberThatLosesTooMuchCoolsAndComesBack) {
  trade::Furnace f = furnace();
  f.natural_cooling.open = given(Frequency::si(0.02));
  f.heating.gain = given(HeatingRate::si(2.1));
  trade::Program p = program();
  p.drying_opening = given(Fraction::si(1));
  p.preheat_hold = given(seconds(400));
  const ChamberHistory h = fired(p, f);
  const double balance = 22 + 2.1 / (0.0017 + 0.02 - 0.0009);
  const double loss = 0.0017 + 0.02 - 0.0009;
  EXPECT_NEAR(at(h, h.chamber_C, 233), balance + (441 - balance) * std::exp(-loss * 233), 0.06);
  EXPECT_NEAR(at(h, h.chamber_C, 710), 441, 1e-6);
}

// ---- where a hold starts

TEST(Hold, StartsWhenTheDisplayReachesOrWhenTheAskedLineDoes) {
  trade::Furnace f = furnace();
  f.heating.gain = given(HeatingRate::si(1.72));
  trade::Program p = program();
  p.vacuum.reset();
  p.heating[0].hold = given(seconds(600));
  const ChamberHistory by_display = fired(p, f);
  f.ability.hold_starts = given(trade::HoldStart::asked_reaches);
  const ChamberHistory by_asked = fired(p, f);
  const double asked_s = 331 + (809 - 441) / (47.0 / 60);
  EXPECT_NEAR(time_of(by_asked, ChamberEvent::hold_begins), asked_s, 1e-6);
  EXPECT_NEAR(time_of(by_asked, ChamberEvent::hold_ends), asked_s + 600, 1e-6);
  EXPECT_NEAR(time_of(by_display, ChamberEvent::hold_begins), time_of(by_display, ChamberEvent::top), 1e-9);
  EXPECT_NEAR(time_of(by_asked, ChamberEvent::top), time_of(by_display, ChamberEvent::top), 1e-6);
  EXPECT_GT(time_of(by_asked, ChamberEvent::top), asked_s + 60);
}

TEST(Hold, RunsOutBeforeTheDisplayGetsThereWhenTheAskedLineStartsIt) {
  trade::Furnace f = furnace();
  f.heating.gain = given(HeatingRate::si(1.45));
  f.ability.hold_starts = given(trade::HoldStart::asked_reaches);
  trade::Program p = program();
  p.vacuum.reset();
  const ChamberHistory h = fired(p, f);
  EXPECT_EQ(h.find(ChamberEvent::top), nullptr);
  EXPECT_TRUE(h.held_back);
  EXPECT_LT(h.display_at(time_of(h, ChamberEvent::hold_ends)), 800);
}

// ---- cooling

TEST(Cooling, NaturalCoolingGoesByTheOpening) {
  trade::Furnace f = furnace();
  f.sensor_lag = given(seconds(0));
  trade::Program p = program();
  p.vacuum.reset();
  p.heating[0].hold = given(seconds(600));
  p.opening_temperature = given(Temperature::celsius(500));
  for (const auto& [opening, constant] : {std::pair{0.0, 0.0009}, {0.25, 0.00165}, {0.5, 0.0024}, {0.75, 0.00385}, {1.0, 0.0053}}) {
    p.cooling = {{given(Temperature::celsius(633)), {}, given(Fraction::si(opening)), {}}};
    const ChamberHistory h = fired(p, f);
    const double from = time_of(h, ChamberEvent::hold_ends);
    double until = from;
    while (h.display_at(until) > 633.001) until += 0.01;
    EXPECT_NEAR(until - from, std::log((809.0 - 22) / (633 - 22)) / constant, 0.2) << opening;
  }
}

TEST(Cooling, ARateIsKeptWhereNaturalCoolingAllowsIt) {
  trade::Program p = program();
  p.vacuum.reset();
  p.cooling = {{given(Temperature::celsius(700)), given(kelvins_per_minute(13)), given(Fraction::si(0)), given(seconds(40))},
               {given(Temperature::celsius(600)), given(kelvins_per_minute(200)), given(Fraction::si(0)), {}}};
  p.opening_temperature = given(Temperature::celsius(590));
  const ChamberHistory h = fired(p, furnace());
  const double from = time_of(h, ChamberEvent::hold_ends);
  EXPECT_NEAR(h.display_at(from + 100) - h.display_at(from + 300), 200 * 13.0 / 60, 0.01);
  const double ends = from + 109 / (13.0 / 60) + 40;
  EXPECT_NEAR(h.display_at(ends - 1), 700, 1.9);  // falls below by at most the furnace's overshoot, and comes back
  // Asked 200 K/min, the shut chamber gives 0.0009 /s of its height over the room.
  EXPECT_NEAR((h.display_at(ends + 40) - h.display_at(ends + 60)) / 20, 0.0009 * (h.display_at(ends + 50) + 1 - 22), 0.02);
}

TEST(Cooling, AnyNumberOfStagesIsRunAndTheChamberOpensAtTheEnd) {
  trade::Program p = program();
  p.cooling.clear();
  for (int i = 0; i < 9; ++i) {
    p.cooling.push_back({given(Temperature::celsius(790 - 20 * i)),
                         i % 2 ? std::optional(given(kelvins_per_minute(9))) : std::nullopt,
                         given(Fraction::si(0.1 * (i % 3))),
                         {}});
  }
  const ChamberHistory h = fired(p, furnace());
  EXPECT_NEAR(h.display_at(time_of(h, ChamberEvent::open)), 630, 1e-3);
  EXPECT_NEAR(h.opening.back(), 1, 0);
}

// ---- refusals

TEST(Refusals, NameTheTemperatureAndWhatTheFurnaceReaches) {
  trade::Furnace f = furnace();
  f.heating.gain = given(HeatingRate::si(1.1));
  EXPECT_EQ(refusal([&] { fired(program(), f); }),
            "Heating stage 1 asks for 809.0 °C; at full power the display of this furnace ends at 669.1 °C.");
  f.heating.gain = given(HeatingRate::si(0.0017 * 787.0001));
  EXPECT_EQ(
      refusal([&] { fired(program(), f); }),
      "Heating stage 1 asks for 809.0 °C; this furnace gets there more than 2 h late, for at full power its display ends at 809.0 °C.");
}

TEST(Refusals, ProgramsThatCannotBeRun) {
  trade::Program p = program();
  p.heating.push_back({given(Temperature::celsius(700)), given(kelvins_per_minute(10)), given(seconds(0)), {}});
  EXPECT_EQ(refusal([&] { fired(p, furnace()); }), "Heating stage 2 goes down from 809.0 to 700.0 °C; a heating stage can only go up.");
  p = program();
  p.vacuum->hold_under_vacuum = given(seconds(90));
  EXPECT_EQ(refusal([&] { fired(p, furnace()); }), "The vacuum is to be kept 90 s of a hold of 67 s at 809.0 °C.");
  p = program();
  p.vacuum->to = given(Temperature::celsius(460));
  EXPECT_EQ(refusal([&] { fired(p, furnace()); }), "The vacuum from 463.0 to 460.0 °C ends where it has not begun.");
  p = program();
  p.unloading_temperature = given(Temperature::celsius(20));
  EXPECT_EQ(refusal([&] { fired(p, furnace()); }),
            "The unloading temperature asks for 20.0 °C; with the room at 22.0 °C the display does not fall to it within 24 h.");
  p = program();
  p.vacuum->level = given(millibars(1100));
  EXPECT_EQ(refusal([&] { fired(p, furnace()); }),
            "The vacuum level of 1100.0 mbar must be above 0 and below the air outside, 1013.2 mbar.");
}

}  // namespace
}  // namespace heatwork::firing
