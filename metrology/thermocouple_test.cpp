#include "metrology/thermocouple.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

namespace heatwork::metrology {
namespace {

constexpr ThermocoupleType all_types[] = {ThermocoupleType::S, ThermocoupleType::R, ThermocoupleType::B, ThermocoupleType::K,
                                          ThermocoupleType::N};

std::string refusal(ThermocoupleType type, double emf_mV, double cold_C) {
  try {
    thermocouple_temperature_C(type, emf_mV, cold_C);
  } catch (const std::domain_error& refused) {
    return refused.what();
  }
  return "";
}

TEST(Thermocouple, ReadingUndoesTheVoltageOverTheWholeRange) {
  for (const ThermocoupleType type : all_types) {
    const ThermocoupleRange range = thermocouple_range(type);
    for (int i = 0; i <= 4000; ++i) {
      const double t = std::min(range.highest_C, range.lowest_read_C + (range.highest_C - range.lowest_read_C) * i / 4000);
      EXPECT_NEAR(thermocouple_temperature_C(type, thermocouple_emf_mV(type, t), 0), t, t < -250 ? 1e-4 : 1e-6) << static_cast<int>(type);
    }
  }
}

TEST(Thermocouple, TheSlopeIsThatOfTheVoltage) {
  for (const ThermocoupleType type : all_types) {
    for (double t = 3.3; t < 1250; t += 17.7) {
      const double step = (thermocouple_emf_mV(type, t + 0.01) - thermocouple_emf_mV(type, t - 0.01)) / 0.02;
      EXPECT_NEAR(thermocouple_slope_mV_per_K(type, t), step, 1e-7);
    }
  }
}

TEST(Thermocouple, PiecesMeet) {
  for (const ThermocoupleType type : all_types) {
    for (const double join : {0.0, 630.615, 1064.18, 1664.5}) {
      if (join == thermocouple_range(type).lowest_C || join > thermocouple_range(type).highest_C) continue;
      EXPECT_NEAR(thermocouple_emf_mV(type, join), thermocouple_emf_mV(type, std::nextafter(join, -1e9)), 2e-6)
          << static_cast<int>(type) << " " << join;
    }
  }
  EXPECT_NEAR(thermocouple_emf_mV(ThermocoupleType::K, 0), 0, 1e-6);
}

TEST(Thermocouple, RefusesWhatItCannotGive) {
  EXPECT_EQ(refusal(ThermocoupleType::S, -9, 25),
            "The wires of the type S thermocouple look reversed: with the cold junction it gives -8.8574 mV, and it can only give a "
            "voltage from "
            "-0.2356 to 18.6935 mV.");
  EXPECT_NE(refusal(ThermocoupleType::K, -39, 25).find("reversed"), std::string::npos);
  EXPECT_EQ(refusal(ThermocoupleType::K, 60, 25),
            "Type K cannot give this voltage: with the cold junction it is 61.0002 mV, and it must be from -6.4577 to 54.8864 mV.");
  EXPECT_EQ(refusal(ThermocoupleType::B, 0.0001, 0),
            "Type B cannot give this voltage: with the cold junction it is 0.0001 mV, and it must be from 0.0023 to 13.8203 mV.");
  EXPECT_EQ(refusal(ThermocoupleType::S, 9, 150), "The cold junction must be from -20 to 100 °C.");
  EXPECT_EQ(refusal(ThermocoupleType::S, std::nan(""), 20).find("Type S cannot give this voltage"), 0U);
  EXPECT_THROW(thermocouple_emf_mV(ThermocoupleType::N, 1301), std::domain_error);
  EXPECT_THROW(thermocouple_emf_mV(ThermocoupleType::N, std::nan("")), std::domain_error);
  EXPECT_THROW(thermocouple_approximate_C(ThermocoupleType::K, 60), std::domain_error);
}

TEST(ThermocoupleTolerance, IsContinuousWhereItsFormulaChanges) {
  EXPECT_NEAR(thermocouple_tolerance_K(ThermocoupleType::S, 1, 1100.001), 1.0, 1e-5);
  EXPECT_NEAR(thermocouple_tolerance_K(ThermocoupleType::R, 2, 600.001), 1.5, 1e-5);
  EXPECT_NEAR(thermocouple_tolerance_K(ThermocoupleType::N, 1, 375.001), 1.5, 1e-5);
  EXPECT_NEAR(thermocouple_tolerance_K(ThermocoupleType::K, 3, -167.001), 2.505, 1e-4);
}

TEST(ThermocoupleTolerance, RefusesOutsideAClass) {
  EXPECT_THROW(thermocouple_tolerance_K(ThermocoupleType::K, 1, 1200), std::domain_error);
  EXPECT_THROW(thermocouple_tolerance_K(ThermocoupleType::B, 1, 900), std::domain_error);
  EXPECT_THROW(thermocouple_tolerance_K(ThermocoupleType::S, 3, 900), std::domain_error);
  EXPECT_THROW(thermocouple_tolerance_K(ThermocoupleType::S, 2, std::nan("")), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
