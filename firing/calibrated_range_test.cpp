#include "firing/calibrated_range.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "physics/viscosity.h"
#include "trade/mistake.h"

namespace heatwork::firing {
namespace {

constexpr double unchecked_K = 24.0;

trade::Furnace furnace(const char* name, std::optional<double> display_u_K) {
  trade::Furnace made;
  made.name = name;
  if (display_u_K) {
    made.display_error.emplace();
    made.display_error->standard_uncertainty.value = quantity::kelvins(*display_u_K);
  }
  return made;
}

trade::Tray tray(const char* name) {
  trade::Tray made;
  made.name = name;
  return made;
}

trade::Material calibrated(std::optional<double> display_u_K) {
  trade::Material made;
  made.name = "own";
  made.calibrated.emplace();
  made.calibrated->furnace = "corner";
  made.calibrated->tray = "light";
  made.calibrated->within.value = quantity::kelvins(10);
  if (display_u_K)
    made.calibrated->display_error_u = trade::Given<quantity::TemperatureDifference>{quantity::kelvins(*display_u_K), {}, {}};
  return made;
}

TEST(CalibratedRange, InItsFurnaceOnItsTrayIsWhatTheTrialTells) {
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated(3), furnace("corner", 3), tray("light"), unchecked_K), 10);
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated(3), furnace("corner", 9), tray("light"), unchecked_K), 10);
}

TEST(CalibratedRange, InAnotherFurnaceBothDisplaysWidenIt) {
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated(3), furnace("window", 4), tray("light"), unchecked_K), std::sqrt(100.0 + 36 + 64));
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated(3), furnace("window", {}), tray("light"), unchecked_K), std::sqrt(100.0 + 36 + 576));
}

TEST(CalibratedRange, ADisplayNeverCheckedAtTheTrialWidensItEverywhereAndOnce) {
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated({}), furnace("corner", {}), tray("light"), unchecked_K), 26);
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated({}), furnace("corner", 3), tray("light"), unchecked_K), 26);
  EXPECT_DOUBLE_EQ(calibrated_within_K(calibrated({}), furnace("window", {}), tray("light"), unchecked_K), std::sqrt(100.0 + 2 * 576));
}

TEST(CalibratedRange, AnotherTrayAddsItsShare) {
  const double here = calibrated_within_K(calibrated(3), furnace("corner", 3), tray("heavy"), unchecked_K);
  EXPECT_DOUBLE_EQ(here, std::hypot(10.0, another_tray_K));
  EXPECT_GT(calibrated_within_K(calibrated(3), furnace("window", 3), tray("heavy"), unchecked_K),
            calibrated_within_K(calibrated(3), furnace("window", 3), tray("light"), unchecked_K));
}

TEST(CalibratedRange, OfAMaterialNeverCalibratedIsRefused) {
  trade::Material material = calibrated(3);
  material.calibrated.reset();
  EXPECT_THROW(calibrated_within_K(material, furnace("corner", 3), tray("light"), unchecked_K), std::invalid_argument);
}

TEST(DecadesForK, AreTheSlopeOfTheLawWhereItFires) {
  trade::Material material;
  material.name = "own";
  EXPECT_THROW(decades_for_K(material, 10), trade::Mistake);
  const auto set = [&](const char* name, double value) { material.properties[name].value = value; };
  set("viscosity_A", -3);
  set("viscosity_B", 4933);
  set("viscosity_T0", 201.1);
  set("crystal_factor", 1.14);
  const physics::Vft vft{-3, 4933, 201.1};
  const double glass_log10 = 5.1 - std::log10(1.14);
  const double fires_C = physics::temperature_of_log10_viscosity_C(vft, glass_log10);
  for (const double K : {10.0, 24.0}) {
    const double both = physics::log10_viscosity(vft, fires_C - K) - physics::log10_viscosity(vft, fires_C + K);
    EXPECT_NEAR(decades_for_K(material, K), both / 2, 0.003 * both);
    EXPECT_DOUBLE_EQ(decades_for_K(material, 2 * K), 2 * decades_for_K(material, K));
  }
}

}  // namespace
}  // namespace heatwork::firing
