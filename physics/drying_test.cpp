#include "physics/drying.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/radiation.h"

namespace heatwork::physics {
namespace {

void record(double value, double expected, double tolerance, const char* unit, const char* source, const char* kind) {
  ::testing::Test::RecordProperty("value", std::to_string(value));
  ::testing::Test::RecordProperty("expected", std::to_string(expected));
  ::testing::Test::RecordProperty("tolerance", std::to_string(tolerance));
  ::testing::Test::RecordProperty("unit", unit);
  ::testing::Test::RecordProperty("source", source);
  ::testing::Test::RecordProperty("kind", kind);
  EXPECT_NEAR(value, expected, tolerance);
}

TEST(Drying, F2LatentHeatOfAFifthOfAGram) {
  record(drying_heat_J(0.2e-3, 373.15) / 1000, 0.45, 0.0135, "kJ", "viscous-sintering-practice, check F2", "verification");
}

TEST(Drying, F1RadiativeLagOfACrown) {
  record(radiative_time_constant_s(5760, 0.8, 1173), 19.7, 0.394, "s", "incropera, check F1", "verification");
  EXPECT_NEAR(radiative_time_constant_s(5760, 0.8, 1173) * 55.0 / 60.0, 18.0, 0.36);
}

TEST(Drying, PermeabilityOfTheNominalPowder) {
  record(1e13 * kozeny_carman_m2(12e-6, 0.42), 1.8, 0.05, "1e-13 m2", "carman-1937; handbook figure", "verification");
  EXPECT_THROW(static_cast<void>(kozeny_carman_m2(0, 0.42)), std::domain_error);
  EXPECT_THROW(static_cast<void>(kozeny_carman_m2(1e-5, 1.0)), std::domain_error);
}

TEST(Drying, SkinPressureAtSixKilowatts) {
  const double density = vapour_density_kg_per_m3(101325, 373.15);
  const double flux = 6000 / latent_heat_J_per_kg(373.15);
  const double rise = skin_pressure_Pa(flux, 2e-3, density, kozeny_carman_m2(12e-6, 0.42));
  record(rise / 1000, 0.7, 0.1, "kPa", "viscous-sintering-practice: 6 kW/m2, 2 mm skin", "verification");
  EXPECT_NEAR(burst_index(rise, 7000), 0.09, 0.02);
}

TEST(Drying, SkinPressureWhenPlungedIntoAHotMuffle) {
  const double density = vapour_density_kg_per_m3(101325, 373.15);
  const double rise = skin_pressure_Pa(90000 / latent_heat_J_per_kg(373.15), 2e-3, density, kozeny_carman_m2(12e-6, 0.42));
  record(rise / 1000, 10, 1.5, "kPa", "viscous-sintering-practice: 90 kW/m2", "verification");
  const double fine = skin_pressure_Pa(90000 / latent_heat_J_per_kg(373.15), 2e-3, density, kozeny_carman_m2(5e-6, 0.42));
  EXPECT_NEAR(fine / rise, 5.76, 1e-9);
}

TEST(Drying, ExpandingGasAgreesAtTheMeanDensity) {
  for (const double p : {2e3, 2e4, 1e5}) {
    const double straight = 3e3;
    const double rise = expanding_skin_pressure_Pa(p, straight);
    EXPECT_NEAR(rise, straight * p / (p + 0.5 * rise), 1e-9 * rise) << p;
    EXPECT_LT(rise, straight);
  }
}

TEST(Drying, BoilsAtOneAtmosphere) {
  EXPECT_NEAR(water_saturation_pressure_Pa(373.15), 101418, 1e-6);
  EXPECT_DOUBLE_EQ(water_saturation_pressure_Pa(600), water_saturation_pressure_Pa(473.15));
}

TEST(Drying, EvaporationSlopesAreTrue) {
  const double first = 0.5;
  for (const double pressure : {101325.0, 5000.0}) {
    const DryingAir air{15, pressure, 0.01};
    for (const double T : {310.0, 350.0, 372.0, 390.0}) {
      for (const double w : {0.4, 0.1, 0.01}) {
        const Evaporation at = evaporation(air, T, w, first);
        const double up = evaporation(air, T + 1e-4, w, first).flux, down = evaporation(air, T - 1e-4, w, first).flux;
        EXPECT_NEAR(at.by_temperature, (up - down) / 2e-4, 1e-5 * std::abs(at.by_temperature) + 1e-12) << T << ' ' << w;
        const double more = evaporation(air, T, w + 1e-6, first).flux, less = evaporation(air, T, w - 1e-6, first).flux;
        EXPECT_NEAR(at.by_water, (more - less) / 2e-6, 1e-5 * std::abs(at.by_water) + 1e-9) << T << ' ' << w;
      }
    }
  }
}

TEST(Drying, NeverTakesWaterUp) {
  const DryingAir damp{15, 101325, 0.1};
  EXPECT_EQ(evaporation(damp, 300, 0.3, 0.5).flux, 0.0);
}

}  // namespace
}  // namespace heatwork::physics
