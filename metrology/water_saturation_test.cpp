#include "metrology/water_saturation.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <utility>

namespace heatwork::metrology {
namespace {

TEST(WaterSaturation, metrology_P18_if97) {
  EXPECT_NEAR(water_saturation_Pa(300.0 - zero_celsius_K) / 1e6 / 3.53658941e-3, 1.0, 1e-8);
  EXPECT_NEAR(water_saturation_Pa(500.0 - zero_celsius_K) / 1e6 / 2.63889776, 1.0, 1e-8);
  EXPECT_NEAR(water_saturation_Pa(600.0 - zero_celsius_K) / 1e6 / 12.3443146, 1.0, 1e-8);
}

TEST(WaterSaturation, TableInMillibars) {
  for (const auto& [temperature_C, mbar] : {std::pair{0.0, 6.112}, {20.0, 23.392}, {25.0, 31.698}, {50.0, 123.51}, {100.0, 1014.18}}) {
    EXPECT_NEAR(water_saturation_Pa(temperature_C) / 100.0 / mbar, 1.0, 1e-4) << temperature_C;
  }
}

TEST(WaterSaturation, RefusesIceAndBeyondTheCriticalPoint) {
  EXPECT_THROW(water_saturation_Pa(-0.01), std::domain_error);
  EXPECT_THROW(water_saturation_Pa(373.95), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
