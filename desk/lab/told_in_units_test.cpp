#include "desk/lab/told_in_units.h"

#include <gtest/gtest.h>

namespace heatwork::desk {
namespace {

std::string in_fahrenheit(std::string_view text) {
  return told_in_units(report::TemperatureScale::fahrenheit, text);
}

TEST(ToldInUnits, ATemperatureGetsThe32AndADifferenceNever) {
  EXPECT_EQ(in_fahrenheit("Fire a fresh wire at a display of 960 °C."), "Fire a fresh wire at a display of 1760 °F.");
  EXPECT_EQ(in_fahrenheit("Silver of this purity melts at 959.48 °C in a vacuum of 50 mbar."),
            "Silver of this purity melts at 1759.06 °F in a vacuum of 50 mbar.");
  EXPECT_EQ(in_fahrenheit("The display reads 10.0 K (± 4.0 K) too high; allowed are 5 K."),
            "The display reads 18.0 °F (± 7.2 °F) too high; allowed are 9 °F.");
  EXPECT_EQ(in_fahrenheit("Key -11 K in place of 0 K."), "Key -19.8 °F in place of 0 °F.");
  EXPECT_EQ(in_fahrenheit("+0.0 K, -10 K, 55 K/min"), "+0.0 °F, -18 °F, 99 °F/min");
  EXPECT_EQ(in_fahrenheit("-40 °C"), "-40 °F");
}

TEST(ToldInUnits, BothEndsOfARange) {
  EXPECT_EQ(in_fahrenheit("from +4.0 to +13.0 K (k = 2)"), "from +7.2 to +23.4 °F (k = 2)");
  EXPECT_EQ(in_fahrenheit("500 to 900 °C in 254 s, it was 231 s"), "932 to 1652 °F in 254 s, it was 231 s");
  EXPECT_EQ(in_fahrenheit("lowers it by 1 to 3 K."), "lowers it by 1.8 to 5.4 °F.");
  EXPECT_EQ(in_fahrenheit("von 4,0 bis 13,0 K"), "von 7,2 bis 23,4 °F");
  EXPECT_EQ(in_fahrenheit("by 12\n             K"), "by 21.6\n             °F");
}

TEST(ToldInUnits, WhatHasNoSuchUnitStays) {
  for (const char* same : {"A type K thermocouple, 3 readings.", "Last done on 2026-11-25 by check corner-11.", "4 K/s, 12 kPa, 50 mbar",
                           "J/(kg K)", "99.99 %", "30 s, 300 mbar", "firing glaze-12 Krypton", "± 3 of 5"})
    EXPECT_EQ(in_fahrenheit(same), same);
  EXPECT_EQ(told_in_units(report::TemperatureScale::celsius, "960 °C"), "960 °C");
}

TEST(ToldInUnits, WhatAPersonTypedStaysAsItIs) {
  EXPECT_EQ(in_fahrenheit("The limit \"300 K\" must be above 0 K."), "The limit \"300 K\" must be above 0 °F.");
  EXPECT_EQ(in_fahrenheit("a lone \" of 10 K"), "a lone \" of 18 °F");
}

TEST(ToldInUnits, ARefusalIsToldInTheScaleOfItsWork) {
  const auto shown = [](report::TemperatureScale scale, trade::Language language) {
    try {
      refusing_in(scale, []() -> int {
        throw std::domain_error("The thermocouple reads 12 °C while the display shows 800 °C: its wires look reversed.");
      });
    } catch (...) {
      return explain_in(std::current_exception(), language).sentence;
    }
    return std::string();
  };
  EXPECT_EQ(shown(report::TemperatureScale::fahrenheit, trade::Language::english),
            "The thermocouple reads 54 °F while the display shows 1472 °F: its wires look reversed.");
  EXPECT_NE(shown(report::TemperatureScale::fahrenheit, trade::Language::german).find("1472 °F"), std::string::npos);
  EXPECT_NE(shown(report::TemperatureScale::fahrenheit, trade::Language::german).find("Thermoelement"), std::string::npos);
  EXPECT_NE(shown(report::TemperatureScale::celsius, trade::Language::english).find("800 °C"), std::string::npos);
}

TEST(ToldInUnits, OfAnAnswerItsSentencesAlone) {
  const Json answer =
      JsonObject{{"sentence", "It is off by 10 K."}, {"example", "960 °C"}, {"then", JsonList{JsonObject{{"sentence", "Hold 800 °C."}}}}};
  const Json told = sentences_in_units(report::TemperatureScale::fahrenheit, answer);
  EXPECT_EQ(*told.find("sentence")->text(), "It is off by 18 °F.");
  EXPECT_EQ(*told.find("example")->text(), "960 °C");
  EXPECT_EQ(*told.find("then")->list()->front().find("sentence")->text(), "Hold 1472 °F.");
}

}  // namespace
}  // namespace heatwork::desk
