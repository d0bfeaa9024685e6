#include "quantity/write.h"

#include <gtest/gtest.h>

namespace heatwork::quantity {
namespace {

TEST(Write, CanonicalTextOfEachKind) {
  EXPECT_EQ(write(Temperature::celsius(850)), "850 °C");
  EXPECT_EQ(write(Temperature::celsius(0.01)), "0.01 °C");
  EXPECT_EQ(write(kelvins(-12.5)), "-12.5 K");
  EXPECT_EQ(write(kelvins_per_minute(55)), "55 K/min");
  EXPECT_EQ(write(millibars(50)), "50 mbar");
  EXPECT_EQ(write(PressureRate::si(2)), "0.02 mbar/s");
  EXPECT_EQ(write(millimetres(0.7)), "0.7 mm");
  EXPECT_EQ(write(Length::si(11e-6)), "11 µm");
  EXPECT_EQ(write(Area::si(2.4e-4)), "2.4 cm2");
  EXPECT_EQ(write(Volume::si(1.3e-3)), "1.3 l");
  EXPECT_EQ(write(grams(31)), "31 g");
  EXPECT_EQ(write(Voltage::si(230)), "230 V");
  EXPECT_EQ(write(Fraction::si(0.7)), "70 %");
  EXPECT_EQ(write(Frequency::si(0.004)), "0.004 /s");
  EXPECT_EQ(write_in(72, "GPa"), "72 GPa");
  EXPECT_EQ(write_number(-0.0), "0");
}

TEST(Write, DurationsInPartsAsSpoken) {
  EXPECT_EQ(write(seconds(0)), "0 s");
  EXPECT_EQ(write(seconds(45)), "45 s");
  EXPECT_EQ(write(seconds(90)), "1 min 30 s");
  EXPECT_EQ(write(minutes(4)), "4 min");
  EXPECT_EQ(write(seconds(3600)), "1 h");
  EXPECT_EQ(write(seconds(3905)), "1 h 5 min 5 s");
  EXPECT_EQ(write(seconds(4.5)), "4.5 s");
  EXPECT_EQ(write(seconds(59.9999999)), "1 min");
}

TEST(Show, FollowsTheReadersUnitsAndDecimalMark) {
  const Manner fahrenheit{UnitSystem::fahrenheit, '.', 0};
  const Manner comma{UnitSystem::metric, ',', 1};
  EXPECT_EQ(show(Temperature::celsius(850), fahrenheit), "1562 °F");
  EXPECT_EQ(show(kelvins(10), fahrenheit), "18 °F");
  EXPECT_EQ(show(kelvins_per_minute(55), fahrenheit), "99 °F/min");
  EXPECT_EQ(show(Temperature::celsius(850.04), comma), "850,0 °C");
  EXPECT_EQ(show(kelvins(-0.04), comma), "0,0 K");
  EXPECT_EQ(show(kelvins_per_minute(55), comma), "55,0 K/min");
  EXPECT_EQ(show(seconds(89.7), comma), "1 min 30 s");
  EXPECT_EQ(show(millibars(3.24), comma), "3,2 mbar");
  EXPECT_EQ(show(millibars(950.4), comma), "950 mbar");
  EXPECT_EQ(show(millimetres(0.7), comma), "0,70 mm");
  EXPECT_EQ(show(Length::si(11e-6), comma), "11 µm");
}

}  // namespace
}  // namespace heatwork::quantity
