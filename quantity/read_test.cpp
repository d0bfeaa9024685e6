#include "quantity/read.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "quantity/people_write.h"
#include "quantity/unit.h"
#include "quantity/write.h"

namespace heatwork::quantity {
namespace {

template <class T>
std::string mistake(std::string_view typed) {
  const auto reading = read<T>(typed);
  return reading ? "read as " + write(*reading) : reading.error();
}

TEST(ReadTemperature, TakesDegreesOfBothScales) {
  EXPECT_DOUBLE_EQ(read<Temperature>("850 °C")->celsius(), 850);
  EXPECT_DOUBLE_EQ(read<Temperature>("1562 °F")->celsius(), 850);
  for (const auto* typed : {"850 C", "850C", "850 degC", "850 deg C", "850°C", "850 ° C", "850,0 °C", "850.0 ℃", "+850 °C", "8.5e2 °C"})
    EXPECT_DOUBLE_EQ(read<Temperature>(typed).value().celsius(), 850) << typed;
  EXPECT_DOUBLE_EQ(read<Temperature>("−40 °F").value().celsius(), -40);
}

TEST(ReadTemperature, RefusesWhatIsNoPoint) {
  EXPECT_EQ(mistake<Temperature>("1123 K"), "\"1123 K\": a temperature is written in °C or °F, such as \"850 °C\"; K is for differences");
  EXPECT_EQ(mistake<Temperature>("850"), "\"850\" has no unit; a temperature is written such as \"850 °C\" (°C, °F)");
  EXPECT_EQ(mistake<Temperature>("-274 °C"), "\"-274 °C\" is below absolute zero (-273.15 °C)");
  EXPECT_EQ(mistake<Temperature>("55 K/min"),
            "\"55 K/min\": the unit \"K/min\" does not fit; a temperature is written such as \"850 °C\" (°C, °F)");
  EXPECT_EQ(mistake<Temperature>("850 °c"),
            "\"850 °c\": the unit \"°c\" does not fit; a temperature is written such as \"850 °C\" (°C, °F); did you mean \"°C\"?");
}

TEST(ReadDifference, IsNotAPoint) {
  EXPECT_DOUBLE_EQ(read<TemperatureDifference>("12 K")->si(), 12);
  EXPECT_DOUBLE_EQ(read<TemperatureDifference>("18 °F")->si(), 10);
  EXPECT_DOUBLE_EQ(read<TemperatureDifference>("-7 °C")->si(), -7);
}

TEST(ReadRate, NeverGetsTheThirtyTwo) {
  EXPECT_EQ(canonical(*read<HeatingRate>("99 °F/min")), kelvins_per_minute(55));
  EXPECT_EQ(canonical(*read<HeatingRate>("55 °C/min")), kelvins_per_minute(55));
  EXPECT_DOUBLE_EQ(read<HeatingRate>("0.5 K/s")->si(), 0.5);
  EXPECT_EQ(mistake<HeatingRate>("55 Kmin"),
            "\"55 Kmin\": the unit \"Kmin\" does not fit; a heating rate is written such as \"55 K/min\" (K/min, K/s, °C/min, °F/min); "
            "did you mean \"K/min\"?");
  EXPECT_EQ(mistake<HeatingRate>("55 K"),
            "\"55 K\": the unit \"K\" does not fit; a heating rate is written such as \"55 K/min\" (K/min, K/s, °C/min, °F/min)");
}

TEST(ReadNumber, DecimalCommaIsReadWhereItIsClear) {
  EXPECT_DOUBLE_EQ(read<Length>("0,125 mm")->si(), 0.000125);
  EXPECT_DOUBLE_EQ(read<Length>("1,5 mm")->si(), 0.0015);
  EXPECT_DOUBLE_EQ(read<Length>("1,5625 mm")->si(), 0.0015625);
  EXPECT_DOUBLE_EQ(read<Length>("1.562 mm")->si(), 0.001562);
  EXPECT_EQ(mistake<Temperature>("1,562 °F"), "\"1,562 °F\" may mean 1562 or 1.562; write it with a point or without the comma");
  EXPECT_EQ(mistake<Length>("-10,250 mm"), "\"-10,250 mm\" may mean -10250 or -10.250; write it with a point or without the comma");
  EXPECT_EQ(mistake<Temperature>("1,562.5 °F"),
            "\"1,562.5 °F\" has two decimal marks; write one decimal point or comma and no mark of thousands");
}

TEST(ReadNumber, RefusesWhatIsNoFiniteNumber) {
  const std::string allowed = "a length is written such as \"0.7 mm\" (mm, µm, cm, m)";
  EXPECT_EQ(mistake<Length>("nan mm"), "\"nan mm\" is not a finite number; " + allowed);
  EXPECT_EQ(mistake<Length>("-Inf mm"), "\"-Inf mm\" is not a finite number; " + allowed);
  EXPECT_EQ(mistake<Length>(""), "nothing is written; " + allowed);
  EXPECT_EQ(mistake<Length>("thick"), "\"thick\" does not begin with a number; " + allowed);
  EXPECT_EQ(mistake<Length>("1e400 mm"), "\"1e400 mm\" is beyond what is read: numbers lie between -1e30 and 1e30");
  EXPECT_EQ(mistake<Length>("0.7 mm or so"), "\"0.7 mm or so\": the unit \"mm or so\" does not fit; " + allowed);
  EXPECT_EQ(mistake<Length>(".7 mm"), "\".7 mm\" does not begin with a number; " + allowed);
}

TEST(ReadDuration, InPartsAndAsAClock) {
  for (const auto* typed : {"1 min 30 s", "1min30s", "90 s", "1:30", "1.5 min", "1,5 min", "0.025 h"})
    EXPECT_DOUBLE_EQ(read<Duration>(typed).value().si(), 90) << typed;
  EXPECT_DOUBLE_EQ(read<Duration>("2 h")->si(), 7200);
  EXPECT_DOUBLE_EQ(read<Duration>("1 h 5 min")->si(), 3900);
  EXPECT_DOUBLE_EQ(read<Duration>("1:05:00")->si(), 3900);
  EXPECT_EQ(write(*read<Duration>("1:30")), "1 min 30 s");
}

TEST(ReadDuration, RefusesMuddledParts) {
  const std::string parts = ": parts of a duration go from long to short and only the last has a fraction, such as \"1 min 30 s\"";
  EXPECT_EQ(mistake<Duration>("30 s 1 min"), "\"30 s 1 min\"" + parts);
  EXPECT_EQ(mistake<Duration>("1.5 min 30 s"), "\"1.5 min 30 s\"" + parts);
  EXPECT_EQ(mistake<Duration>("1 min 90 s"), "\"1 min 90 s\"" + parts);
  EXPECT_EQ(mistake<Duration>("1:90"),
            "\"1:90\" is not a time of a clock; it is written \"1:30\" (1 min 30 s) or \"1:05:00\" (1 h 5 min), the last parts below 60");
  EXPECT_EQ(mistake<Duration>("-5 s"), "\"-5 s\" is negative; a duration is zero or more");
  EXPECT_EQ(mistake<Duration>("90"), "\"90\" has no unit; a duration is written such as \"1 min 30 s\" (s, min, h, d)");
  EXPECT_EQ(mistake<Duration>("1 min 30"), "\"1 min 30\" has no unit; a duration is written such as \"1 min 30 s\" (s, min, h, d)");
}

TEST(ReadPressure, AbsoluteAndBelowAmbient) {
  for (const auto* typed : {"50 mbar", "50 hPa", "5 kPa", "5000 Pa", "0.05 bar", "50 mbar absolute"})
    EXPECT_DOUBLE_EQ(read<Pressure>(typed).value().si(), 5000) << typed;
  const Pressure ambient = millibars(1013.25);
  EXPECT_NEAR(read_pressure("720 mmHg", ambient)->si(), 101325 - 720 * 133.322387415, 1e-9);
  EXPECT_NEAR(read_pressure("28 inHg below ambient", ambient)->si(), 101325 - 28 * 3386.388640341, 1e-6);
  EXPECT_NEAR(read_pressure("960 mbar below ambient", ambient)->si(), 5325, 1e-9);
  EXPECT_NEAR(read_pressure("40 mmHg absolute", std::nullopt)->si(), 40 * 133.322387415, 1e-9);
  EXPECT_EQ(
      mistake<Pressure>("720 mmHg"),
      "\"720 mmHg\" counts down from the ambient pressure, which is not known here; give a barometer reading or the altitude, or write an "
      "absolute pressure such as \"50 mbar\"");
  EXPECT_EQ(read_pressure("770 mmHg", ambient).error(), "\"770 mmHg\" is more than the whole ambient pressure of 1013 mbar");
  EXPECT_EQ(mistake<Pressure>("-3 mbar"), "\"-3 mbar\" is negative; a pressure is zero or more");
}

TEST(ReadOthers, EachKindHasItsUnits) {
  EXPECT_DOUBLE_EQ(read<PressureRate>("1.2 mbar/min")->si(), 2);
  EXPECT_DOUBLE_EQ(read<Length>("12 µm")->si(), 12e-6);
  EXPECT_DOUBLE_EQ(read<Length>("12 um")->si(), 12e-6);
  EXPECT_DOUBLE_EQ(read<Area>("2.4 cm2")->si(), 2.4e-4);
  EXPECT_DOUBLE_EQ(read<Area>("2.4 cm²")->si(), 2.4e-4);
  EXPECT_DOUBLE_EQ(read<Volume>("1.3 l")->si(), 1.3e-3);
  EXPECT_DOUBLE_EQ(read<Volume>("250 ml")->si(), 2.5e-4);
  EXPECT_DOUBLE_EQ(read<Volume>("250 cm3")->si(), 2.5e-4);
  EXPECT_DOUBLE_EQ(read<Mass>("0.031 kg")->si(), 0.031);
  EXPECT_DOUBLE_EQ(read<Voltage>("231 V")->si(), 231);
  EXPECT_DOUBLE_EQ(read<Fraction>("70 %")->si(), 0.7);
  EXPECT_DOUBLE_EQ(read<Frequency>("0.004 /s")->si(), 0.004);
  EXPECT_DOUBLE_EQ(read<Frequency>("0.004 1/s")->si(), 0.004);
  EXPECT_EQ(mistake<Fraction>("0.7"), "\"0.7\" has no unit; a share is written such as \"70 %\" (%)");
}

TEST(ReadIn, AnyUnitOfTheSameDimension) {
  EXPECT_DOUBLE_EQ(*read_in("72 GPa", "MPa", "a modulus"), 72000);
  EXPECT_DOUBLE_EQ(*read_in("1.3 W/(m K)", "W/(m K)", "a conductivity"), 1.3);
  EXPECT_DOUBLE_EQ(*read_in("1.3 W/m/K", "W/(m K)", "a conductivity"), 1.3);
  EXPECT_NEAR(*read_in("12.5 10^-6/K", "ppm/K", "an expansion"), 12.5, 1e-12);
  EXPECT_DOUBLE_EQ(*read_in("2.5 g/cm3", "kg/m3", "a density"), 2500);
  EXPECT_DOUBLE_EQ(*read_in("1900 J/(m2 K)", "J/(m² K)", "a heat capacity"), 1900);
  EXPECT_EQ(read_in("1.3 W", "W/(m K)", "a conductivity").error(),
            "\"1.3 W\": the unit \"W\" does not fit; a conductivity is written such as \"1.5 W/(m K)\" (W/(m K))");
  EXPECT_THROW((void)read_in("1 x", "furlong", "a length"), std::invalid_argument);
  EXPECT_FALSE(read_unit("W/((((m))))").has_value());
  EXPECT_FALSE(read_unit("W/").has_value());
  EXPECT_FALSE(read_unit("").has_value());
}

TEST(Canonical, RoundsToTheStoredResolution) {
  EXPECT_EQ(write(canonical(*read<Temperature>("1563 °F"))), "850.56 °C");
  EXPECT_EQ(canonical(seconds(89.6)), seconds(90));
  EXPECT_EQ(canonical(Pressure::si(5004)), millibars(50));
  EXPECT_EQ(canonical(kelvins(12.004)), kelvins(12));
  EXPECT_EQ(canonical(Length::si(1.23456e-7)), Length::si(1.23456e-7));
}

TEST(NearMiss, FindsASlipAndLeavesAStranger) {
  const std::vector<std::string> known{"standby", "drying", "closing"};
  EXPECT_EQ(near_miss("dryng", known), "drying");
  EXPECT_EQ(near_miss("Standby", known), "standby");
  EXPECT_EQ(near_miss("colsing", known), "closing");
  EXPECT_EQ(near_miss("vacuum", known), "");
}

template <class T>
void comes_back(T value) {
  const auto again = read<T>(write(value));
  RC_ASSERT(again.has_value());
  RC_ASSERT(canonical(*again) == value);
}

RC_GTEST_PROP(RoundTrip, CanonicalTextReadsBackToTheSameValue, ()) {
  comes_back(canonical(Temperature::celsius(*rc::gen::inRange(-27315, 300000) / 100.0)));
  comes_back(canonical(kelvins(*rc::gen::inRange(-99999, 99999) / 100.0)));
  comes_back(canonical(kelvins_per_minute(*rc::gen::inRange(-50000, 50000) / 100.0)));
  comes_back(canonical(seconds(*rc::gen::inRange(0, 4000000))));
  comes_back(canonical(Pressure::si(*rc::gen::inRange(0, 200000) * 10.0)));
}

TEST(Read, APowerOfTenIsReadAsPeopleWriteIt) {
  for (const char* typed :
       {"0.00002 /s", "0,00002 /s", "2e-5 /s", "2E-05 /s", "2·10⁻⁵ /s", "2×10^-5 /s", "2 x 10^-5 /s", "2 * 10⁻⁵ /s", "2·10^−5/s"})
    EXPECT_EQ(read<Frequency>(typed)->si(), 2e-5) << typed;
  EXPECT_EQ(read<Frequency>("10⁻⁷ /s")->si(), 1e-7);
  EXPECT_EQ(read<Frequency>("10^-7 /s")->si(), 1e-7);
  EXPECT_EQ(read<Frequency>("2,5·10⁻⁷ /s")->si(), 2.5e-7);
  EXPECT_EQ(read_in("-1.5·10¹² Pa", "Pa", "it").value(), -1.5e12);
  EXPECT_EQ(read_number("10³", "it").value(), 1000);
  EXPECT_FALSE(read<Frequency>("2 10⁻⁵ /s"));
  EXPECT_FALSE(read<Frequency>("210⁻⁵ /s"));
  EXPECT_EQ(read<Area>("10 mm²")->si(), read<Area>("10 mm2")->si());
}

TEST(PeopleWrite, NoNumberIsWrittenAsProgramsDo) {
  EXPECT_EQ(as_people_write("1e-05 /s", "."), "0.00001 /s");
  EXPECT_EQ(as_people_write("1.25e-05 /s", ","), "0,0000125 /s");
  EXPECT_EQ(as_people_write("1e-07 /s", "."), "10⁻⁷ /s");
  EXPECT_EQ(as_people_write("-2.50e-7 /s", ","), "-2,5·10⁻⁷ /s");
  EXPECT_EQ(as_people_write("4e+06 Pa to 1.5e12 Pa", "."), "4000000 Pa to 1.5·10¹² Pa");
  EXPECT_EQ(as_people_write("0e5", "."), "0");
  EXPECT_EQ(as_people_write("0.004 /s, 12.50 K and 1 min 30 s", ","), "0,004 /s, 12,50 K and 1 min 30 s");
  EXPECT_EQ(as_people_write("case1e5 is 3e", "."), "case1e5 is 3e");
}

RC_GTEST_PROP(PeopleWrite, IsReadBackToTheSameValue, ()) {
  const double value = *rc::gen::inRange(1, 999999) * std::pow(10.0, *rc::gen::inRange(-20, 12));
  const std::string written = write_in(value, "/s");
  for (const char* mark : {".", ","}) {
    const std::string shown = as_people_write(written, mark);
    // Three digits behind a comma may be thousands, which the reader says rather than guesses.
    const bool ambiguous =
        mark[0] == ',' && !read<Frequency>(shown) && read<Frequency>(shown).error().find("may mean") != std::string::npos;
    RC_ASSERT(ambiguous || read<Frequency>(shown)->si() == read<Frequency>(written)->si());
    RC_ASSERT(shown.find('e') == std::string::npos);
  }
}

RC_GTEST_PROP(RoundTrip, OtherKindsComeBackToTwelveDigits, ()) {
  const double number = *rc::gen::inRange(1, 1000000) / 1000.0;
  RC_ASSERT(std::abs(read<Length>(write(Length::si(number * 1e-3)))->si() - number * 1e-3) <= 1e-11 * number);
  RC_ASSERT(std::abs(read<Mass>(write(Mass::si(number)))->si() - number) <= 1e-11 * number);
  RC_ASSERT(std::abs(read<Fraction>(write(Fraction::si(number)))->si() - number) <= 1e-11 * number);
  RC_ASSERT(std::abs(read<Volume>(write(Volume::si(number * 1e-5)))->si() - number * 1e-5) <= 1e-11 * number);
}

RC_GTEST_PROP(Fahrenheit, AgreesWithTheScaleForPointsDifferencesAndRates, ()) {
  const int degrees = *rc::gen::inRange(-400, 3000);
  RC_ASSERT(std::abs(read<Temperature>(fmt::format("{} °F", degrees))->celsius() - (degrees - 32) / 1.8) < 1e-9);
  RC_ASSERT(std::abs(read<TemperatureDifference>(fmt::format("{} °F", degrees))->si() - degrees / 1.8) < 1e-9);
  RC_ASSERT(std::abs(read<HeatingRate>(fmt::format("{} °F/min", degrees))->si() - degrees / 108.0) < 1e-9);
}

RC_GTEST_PROP(AnyText, IsReadOrRefusedByOneSentence, (const std::string& typed)) {
  const auto reading = read<Duration>(typed);
  if (!reading) RC_ASSERT(!reading.error().empty() && reading.error().find('\n') == std::string::npos);
  (void)read<Temperature>(typed);
  (void)read_unit(typed);
}

}  // namespace
}  // namespace heatwork::quantity
