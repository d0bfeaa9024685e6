#include "report/number.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

namespace heatwork::report {
namespace {

using enum TemperatureScale;

Numbers told(TemperatureScale scale = celsius, trade::Language language = trade::Language::english) {
  return Numbers(trade::words_of(language), scale);
}

TEST(Number, TemperaturesAreWholeDegrees) {
  EXPECT_EQ(told().temperature(902.51), "903 °C");
  EXPECT_EQ(told().temperature(-0.2), "0 °C");
  EXPECT_EQ(told(fahrenheit).temperature(920), "1688 °F");
}

TEST(Number, ADifferenceNeverGetsTheThirtyTwo) {
  EXPECT_EQ(told().difference(-12.4), "12 K");
  EXPECT_EQ(told(fahrenheit).difference(55), "99 °F");
  EXPECT_EQ(told().difference(0.3), "under 1 K");
}

TEST(Number, DurationsReadAsAWatchIsRead) {
  EXPECT_EQ(told().duration(40), "40 s");
  EXPECT_EQ(told().duration(59.6), "1 min");
  EXPECT_EQ(told().duration(785), "13 min 5 s");
  EXPECT_EQ(told().duration(3720), "1 h 2 min");
  EXPECT_EQ(told().duration(-41), "41 s");
  EXPECT_EQ(clock(785), "13:05");
}

TEST(Number, NoMoreDigitsThanAreKnown) {
  EXPECT_EQ(told().percent(0), "0 %");
  EXPECT_EQ(told().percent(0.004), "under 0.1 %");
  EXPECT_EQ(told().percent(0.6312), "0.63 %");
  EXPECT_EQ(told().percent(6.42), "6.4 %");
  EXPECT_EQ(told().percent(38.2), "38 %");
  EXPECT_EQ(told().pressure(4712), "47 mbar");
  EXPECT_EQ(told().pressure(312), "3.1 mbar");
  EXPECT_EQ(told().micrometres(154.3), "154 µm");
  EXPECT_EQ(told().micrometres(3.14), "3.1 µm");
  EXPECT_EQ(told().micrometres(10686281), "over 10 mm");
}

TEST(Number, ByUnit) {
  EXPECT_EQ(told().shown(-19.1, "K"), "−19 K");
  EXPECT_EQ(told(fahrenheit).shown(-19.1, "K"), "−34 °F");
  EXPECT_EQ(told().shown(-0.2, "K"), "under 1 K");
  EXPECT_EQ(told().shown(1.5, "min"), "1 min 30 s");
  EXPECT_EQ(told().shown(0.3141, ""), "0.31");
  EXPECT_EQ(told().shown(7.1e-5, "points"), "under 0.1 points");
  EXPECT_EQ(told().shown(-0.52, "points"), "−0.52 points");
  EXPECT_EQ(told().limit(5, "%"), "5 %");
  EXPECT_EQ(told().limit(0.3, ""), "0.3");
  EXPECT_EQ(told().limit(10, "K"), "10 K");
}

TEST(Number, InGermanWithItsDecimalMarkAndWords) {
  const Numbers german = told(celsius, trade::Language::german);
  EXPECT_EQ(german.percent(0.6312), "0,63 %");
  EXPECT_EQ(german.percent(0.004), "unter 0,1 %");
  EXPECT_EQ(german.pressure(312), "3,1 mbar");
  EXPECT_EQ(german.micrometres(10686281), "über 10 mm");
  EXPECT_EQ(german.shown(-0.52, "points"), "−0,52 Prozentpunkte");
  EXPECT_EQ(german.limit(0.3, ""), "0,3");
  EXPECT_EQ(german.temperatures(890, 903), "890 bis 903 °C");
  EXPECT_EQ(german.difference(0.3), "unter 1 K");
  EXPECT_EQ(german.tick(0.1), "0,1");
}

TEST(Number, TheSmallestAreWrittenAsPeopleDo) {
  EXPECT_EQ(told().shown(1.2e-5, "/s"), "0.000012 /s");
  EXPECT_EQ(told().shown(2.5e-7, "/s"), "2.5·10⁻⁷ /s");
  EXPECT_EQ(told(celsius, trade::Language::german).limit(2.5e-7, "/s"), "2,5·10⁻⁷ /s");
}

TEST(Number, FilesCarryTenDigitsAndNeverNaN) {
  EXPECT_EQ(written(1.0 / 3.0, "third"), 0.3333333333);
  EXPECT_FALSE(std::signbit(written(-0.0, "zero")));
  EXPECT_THROW(written(std::numeric_limits<double>::quiet_NaN(), "water_left_g"), std::logic_error);
  try {
    written(std::numeric_limits<double>::infinity(), "core");
    FAIL();
  } catch (const std::logic_error& error) {
    EXPECT_STREQ(error.what(), "core is not a finite number and cannot be written");
  }
}

}  // namespace
}  // namespace heatwork::report
