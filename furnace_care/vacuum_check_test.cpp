#include "furnace_care/vacuum_check.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "furnace_care/furnace_for_tests.h"

namespace heatwork::furnace_care {
namespace {

using trade::GaugeKind;

trade::Furnace furnace_at(double altitude_m, GaugeKind gauge) {
  trade::Furnace furnace = own_furnace();
  furnace.altitude.value = quantity::Length::si(altitude_m);
  furnace.chamber_volume.value = quantity::Volume::si(0.5e-3);
  furnace.pump.gauge.value = gauge;
  furnace.pump.time_constant.value = quantity::seconds(10);
  furnace.pump.time_constant_when_new.reset();
  furnace.pump.ultimate_when_new.reset();
  return furnace;
}

std::vector<trade::GaugeSample> gauge_record(double every_s, double to_s, const std::string& unit, double step,
                                             const std::function<double(double)>& shown) {
  std::vector<trade::GaugeSample> record;
  for (double t = 0; t <= to_s + 1e-9; t += every_s) record.push_back({quantity::seconds(t), step * std::round(shown(t) / step), unit, {}});
  return record;
}

std::vector<trade::GaugeSample> pumping(double time_constant_s, double lowest_mbar) {
  return gauge_record(2, 90, "mbar", 1, [=](double t) { return lowest_mbar + (960 - lowest_mbar) * std::exp(-t / time_constant_s); });
}

std::vector<trade::GaugeSample> rising(double slope, double gas_mbar, double start_mbar = 12) {
  return gauge_record(10, 600, "mbar", 0.1,
                      [=](double t) { return start_mbar + slope * t + gas_mbar * (1 - std::exp(-t / 50)) + 0.1 * std::sin(t); });
}

trade::VacuumTest readings(std::vector<trade::GaugeSample> pump_down, std::vector<trade::GaugeSample> rise = {}) {
  trade::VacuumTest test;
  test.pump_down = std::move(pump_down);
  test.rise = std::move(rise);
  test.room = {quantity::Temperature::celsius(20), "20 °C", {}};
  return test;
}

const std::vector<PumpSeen> usual{{0, 10, 20, false}, {30, 9.8, 21, false}, {60, 10.2, 20, false}};

VacuumTold tell(const trade::VacuumTest& test, const std::vector<PumpSeen>& earlier = usual, bool rise_possible = true) {
  const trade::Furnace furnace = furnace_at(500, GaugeKind::absolute);
  VacuumTold told = tell_vacuum({furnace, test, earlier, 90, rise_possible});
  EXPECT_EQ(without_german(told), "");
  return told;
}

std::string refusal(const trade::Furnace& furnace, const trade::VacuumTest& test, const std::vector<PumpSeen>& earlier = usual) {
  try {
    (void)tell_vacuum({furnace, test, earlier, 90, true});
  } catch (const std::domain_error& refused) {
    EXPECT_TRUE(has_german(refused.what())) << refused.what();
    return refused.what();
  }
  return "nothing was refused";
}

TEST(VacuumCheck, APumpThatWorksAsItDidIsGoodAndSaysItsNumbers) {
  const VacuumTold told = tell(readings(pumping(10, 20)));
  EXPECT_EQ(told.level, CheckLevel::good);
  EXPECT_EQ(told.verdict, "pump as before, low enough for porcelain");
  EXPECT_NEAR(told.pump->time_constant_s, 10, 0.1);
  EXPECT_NEAR(told.pump->ultimate_mbar, 20, 0.5);
  EXPECT_LT(*told.time_constant_sd_s, 0.2);
  EXPECT_NEAR(*told.speed_L_per_s, 0.05, 0.001);
  EXPECT_NEAR(*told.to_porcelain_vacuum_s, 10 * std::log((954.61 - 20) / 30), 0.5);
}

TEST(VacuumCheck, AWeakPumpALeakyOneAndAWetOneAreToldApart) {
  EXPECT_EQ(tell(readings(pumping(14, 20))).verdict, "weak pump");
  const VacuumTold higher = tell(readings(pumping(10, 31)));
  EXPECT_EQ(higher.level, CheckLevel::not_good);
  EXPECT_EQ(higher.verdict, "leak or water");
  EXPECT_NE(higher.next.front().find("pump warm"), std::string::npos);
  std::vector<PumpSeen> with_cold = usual;
  with_cold.push_back({89.8, 10, 31, false});
  trade::VacuumTest warm = readings(pumping(10, 20));
  warm.pump_warm = {true, "true", {}};
  EXPECT_EQ(tell(warm, with_cold).verdict, "wet pump");
  warm.pump_down = pumping(10, 31);
  EXPECT_EQ(tell(warm, with_cold).verdict, "leak or water");
}

TEST(VacuumCheck, TheShutChamberTellsLeakGasAndWater) {
  const VacuumTold leak = tell(readings(pumping(10, 20), rising(0.4, 0)));
  EXPECT_EQ(leak.level, CheckLevel::not_good);
  EXPECT_EQ(leak.verdict, "leak");
  EXPECT_NEAR(*leak.leak_mbar_per_s, 0.4, 0.01);
  EXPECT_GT(*leak.leak_sd_mbar_per_s, 0);
  const VacuumTold small = tell(readings(pumping(10, 20), rising(0.03, 8)));
  EXPECT_EQ(small.level, CheckLevel::good);
  EXPECT_NE(small.findings.back().sentence.find("which is allowed"), std::string::npos);
  EXPECT_EQ(tell(readings(pumping(10, 20), rising(0, 30))).verdict, "pump as before, low enough for porcelain, gas from the lining");
  const VacuumTold wet = tell(readings(pumping(10, 20), rising(0, 11.4)));
  EXPECT_EQ(wet.level, CheckLevel::not_good);
  EXPECT_EQ(wet.verdict, "water");
  EXPECT_NEAR(*wet.saturation_mbar, 23.39, 0.01);
  const VacuumTold tight = tell(readings({}, gauge_record(10, 600, "mbar", 0.1, [](double) { return 12; })));
  EXPECT_EQ(tight.level, CheckLevel::good);
  EXPECT_EQ(tight.verdict, "tight and dry");
  EXPECT_EQ(*tight.leak_mbar_per_s, 0);
}

TEST(VacuumCheck, ARecordTooShortOrWithTooFewReadingsIsUndecided) {
  const VacuumTold few = tell(readings(gauge_record(20, 60, "mbar", 1, [](double t) { return 900 - t; })));
  EXPECT_EQ(few.level, CheckLevel::cannot_tell);
  EXPECT_EQ(few.verdict, "pump undecided");
  EXPECT_FALSE(few.pump);
  const VacuumTold brief = tell(readings(gauge_record(1, 6, "mbar", 1, [](double t) { return 960 * std::exp(-t / 10); })));
  EXPECT_EQ(brief.level, CheckLevel::cannot_tell);
  const VacuumTold rise = tell(readings({}, gauge_record(30, 90, "mbar", 1, [](double t) { return 12 + 0.1 * t; })));
  EXPECT_EQ(rise.level, CheckLevel::cannot_tell);
  EXPECT_EQ(rise.verdict, "undecided");
  const VacuumTold one = tell(readings({}, gauge_record(30, 0, "mbar", 1, [](double) { return 12; })));
  EXPECT_EQ(one.level, CheckLevel::cannot_tell);
}

TEST(VacuumCheck, AFurnaceThatCannotBeShutIsCheckedByItsPumpAlone) {
  const VacuumTold told = tell(readings(pumping(10, 20)), usual, false);
  EXPECT_EQ(told.level, CheckLevel::good);
  EXPECT_NE(told.remarks.back().find("cannot be shut"), std::string::npos);
}

TEST(VacuumCheck, DialAndPercentAreWhatTheAbsoluteGaugeShowsAtThisAltitude) {
  constexpr double air_mbar = 845.60;
  const auto absolute = [](double t) { return 20 + (845 - 20) * std::exp(-t / 10); };
  trade::VacuumTest dial = readings(gauge_record(2, 90, "mmHg", 1, [&](double t) { return (air_mbar - absolute(t)) / 1.33322387415; }));
  const VacuumTold by_altitude = tell_vacuum({furnace_at(1500, GaugeKind::below_ambient), dial, {}, 0, true});
  EXPECT_NEAR(by_altitude.pump->ultimate_mbar, 20, 1);
  EXPECT_GT(*by_altitude.ultimate_sd_mbar, 12);  // the weather
  EXPECT_EQ(without_german(by_altitude), "");
  dial.barometer = {quantity::millibars(air_mbar), "", {}};
  const VacuumTold by_barometer = tell_vacuum({furnace_at(1500, GaugeKind::below_ambient), dial, {}, 0, true});
  EXPECT_LT(*by_barometer.ultimate_sd_mbar, 2);
  const trade::VacuumTest percent =
      readings(gauge_record(2, 90, "%", 0.1, [&](double t) { return 100 * (air_mbar - absolute(t)) / air_mbar; }));
  EXPECT_NEAR(tell_vacuum({furnace_at(1500, GaugeKind::percent_of_ambient), percent, {}, 0, true}).pump->ultimate_mbar, 20, 1);
}

TEST(VacuumCheck, WithoutABarometerADialDoesNotTellWaterFromGas) {
  trade::VacuumTest test;
  test.room = {quantity::Temperature::celsius(20), "", {}};
  test.rise = gauge_record(10, 600, "mbar", 1, [](double t) { return 954.61 - 12 - 11.4 * (1 - std::exp(-t / 50)); });
  const trade::Furnace furnace = furnace_at(500, GaugeKind::below_ambient);
  const VacuumTold unsure = tell_vacuum({furnace, test, {}, 0, true});
  EXPECT_EQ(unsure.level, CheckLevel::cannot_tell);
  EXPECT_EQ(without_german(unsure), "");
  test.barometer = {quantity::millibars(954.61), "", {}};
  EXPECT_EQ(tell_vacuum({furnace, test, {}, 0, true}).verdict, "water");
}

TEST(VacuumCheck, TheStepOfAGaugeIsItsOwnWhateverItIsBroughtTo) {
  const AirAround air = air_around(std::nullopt, 187);
  EXPECT_EQ(step_mbar(gauge_record(10, 100, "mbar", 1, [](double t) { return 900 + t; }), air), 10);
  EXPECT_NEAR(step_mbar(gauge_record(7, 100, "mmHg", 1, [](double t) { return 600 + t; }), air), 1.33322, 1e-4);
  EXPECT_NEAR(step_mbar(gauge_record(7, 100, "%", 0.1, [](double t) { return 90 + 0.03 * t; }), air), 0.991, 1e-3);
}

TEST(VacuumCheck, ADialWithoutABarometerStillTellsASlowPump) {
  const auto dial = [](double time_constant_s) {
    return readings(gauge_record(2, 120, "mbar", 1, [=](double t) { return (954.61 - 20) * (1 - std::exp(-t / time_constant_s)); }));
  };
  const trade::Furnace furnace = furnace_at(500, GaugeKind::below_ambient);
  const VacuumTold slow = tell_vacuum({furnace, dial(16), usual, 90, true});
  EXPECT_EQ(slow.level, CheckLevel::not_good);
  EXPECT_EQ(slow.verdict, "weak pump");
  const VacuumTold as_before = tell_vacuum({furnace, dial(10), usual, 90, true});
  EXPECT_EQ(as_before.level, CheckLevel::cannot_tell);
  EXPECT_NE(as_before.sentence.find("The pump is as fast as it was"), std::string::npos);
  EXPECT_EQ(without_german(as_before), "");
}

TEST(VacuumCheck, APumpThatSlowsDownIsForeseen) {
  const std::vector<PumpSeen> slowing{{0, 10, 20, false}, {30, 10.4, 20, false}, {60, 10.9, 20, false}};
  const VacuumTold told = tell(readings(pumping(11.3, 20)), slowing);
  ASSERT_TRUE(told.forecast);
  EXPECT_NEAR(told.forecast->days, 115, 40);
  EXPECT_LT(told.forecast->earliest_days, told.forecast->days);
  EXPECT_FALSE(tell(readings(pumping(10, 20))).forecast);
}

TEST(VacuumCheck, RefusesWhatNoGaugeShowsHere) {
  const trade::Furnace low = furnace_at(0, GaugeKind::below_ambient), high = furnace_at(500, GaugeKind::below_ambient);
  const trade::VacuumTest dial = readings(gauge_record(10, 60, "mmHg", 1, [](double) { return 720; }));
  EXPECT_NE(refusal(low, dial).substr(0, 8), "pump-down");
  EXPECT_EQ(
      refusal(high, dial),
      "pump-down, 0 s: 720 mmHg below the air leaves no pressure at all: at 500 m the air has about 955 mbar; the unit, the altitude or "
      "the weather is another (a barometer tells).");
  EXPECT_EQ(
      refusal(furnace_at(1500, GaugeKind::absolute), readings(pumping(10, 20))),
      "pump-down, 0 s: 960 mbar absolute is more than there is: at 1500 m the air has about 846 mbar; the gauge, its unit or the altitude "
      "is wrong.");
  EXPECT_EQ(refusal(furnace_at(0, GaugeKind::percent_of_ambient), readings(pumping(10, 20))),
            "pump-down, 0 s: 960 mbar, but the gauge of this furnace is \"percent of ambient\", and that reads in %.");
  trade::VacuumTest sea_level = readings(pumping(10, 20));
  sea_level.barometer = {quantity::millibars(1015), "", {}};
  EXPECT_EQ(
      refusal(furnace_at(1500, GaugeKind::absolute), sea_level),
      "The barometer shows 1015 mbar, but at 1500 m the air has about 846 mbar; take the pressure of the place itself, not one brought to "
      "sea level.");
}

TEST(VacuumCheck, RefusesAnotherFurnaceAndARiseWithoutItsRoom) {
  const trade::Furnace furnace = furnace_at(500, GaugeKind::absolute);
  EXPECT_NE(refusal(furnace, readings(pumping(4, 20))).find("another furnace"), std::string::npos);
  trade::VacuumTest no_room = readings({}, rising(0.1, 0));
  no_room.room.reset();
  EXPECT_NE(refusal(furnace, no_room).find("add room"), std::string::npos);
  EXPECT_NE(refusal(furnace, trade::VacuumTest{}).find("No reading"), std::string::npos);
}

}  // namespace
}  // namespace heatwork::furnace_care
