#include "firing/vary.h"

#include <gtest/gtest.h>

#include <cmath>

#include "firing/material_physics.h"
#include "physics/arrhenius.h"
#include "physics/viscosity.h"
#include "trade/reader.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

trade::DecidingInput input(const std::string& name, trade::InputOf of, double low = 0, double high = 0) {
  trade::DecidingInput made;
  made.name = name;
  made.of = of;
  made.low = low;
  made.high = high;
  made.aspects = {"heat"};
  return made;
}

trade::Estimate estimate(double value, double low, double high) {
  trade::Estimate made;
  made.value = value;
  made.low = low;
  made.high = high;
  return made;
}

Ingredients ingredients() {
  Ingredients made;
  made.conditions.display_error_K = 12;
  made.conditions.gain_K_per_s = 2;
  made.tray_kg = 0.01;
  trade::Material& block = made.materials["block"];
  block.name = "block";
  block.properties["emissivity"] = estimate(0.9, 0.8, 0.95);
  block.properties["crystallisation_2_exponent"] = estimate(2, 1.5, 3);
  block.properties["crystallisation_2_energy"] = estimate(300, 190, 460);
  block.properties["crystallisation_2_rate"] = estimate(27.876, 27.2, 28.5);
  block.properties["nothing_known"] = estimate(1, 1, 1);
  return made;
}

trade::ResolvedFiring request(double u_K) {
  trade::ResolvedFiring made;
  trade::DisplayError display;
  display.standard_uncertainty.value = quantity::kelvins(u_K);
  made.furnace.display_error = display;
  return made;
}

TEST(Vary, TheDisplayGoesBySoManyStandardUncertainties) {
  Ingredients with = ingredients();
  EXPECT_TRUE(vary(with, input("display_error", trade::InputOf::furnace, -2, 2), "", -1, request(3), 24));
  EXPECT_DOUBLE_EQ(with.conditions.display_error_K, 6);
  with = ingredients();
  trade::ResolvedFiring unchecked = request(3);
  unchecked.furnace.display_error.reset();
  EXPECT_TRUE(vary(with, input("display_error", trade::InputOf::furnace, -2, 2), "", 0.5, unchecked, 24));
  EXPECT_DOUBLE_EQ(with.conditions.display_error_K, 12 + 0.5 * 24);
}

TEST(Vary, WhatACheckDecidesGoesToTwiceItsUncertainty) {
  trade::ResolvedFiring checked = request(3);
  checked.furnace.heating.gain.value = quantity::HeatingRate::si(2.5);
  checked.furnace_known.gain_u = quantity::HeatingRate::si(0.05);
  checked.furnace_known.leak_u = quantity::PressureRate::si(2);
  checked.furnace_known.pump_time_constant_u = quantity::seconds(9);
  const auto gain = input("heating_gain", trade::InputOf::furnace, -20, 20), leak = input("leak", trade::InputOf::furnace, -20, 20),
             pump = input("pump_time_constant", trade::InputOf::furnace, -20, 20);
  Ingredients with = ingredients();
  EXPECT_TRUE(vary(with, gain, "", 1, checked, 24));
  EXPECT_DOUBLE_EQ(with.conditions.gain_K_per_s, 2 + 2 * 0.05 * 2 / 2.5) << "known at nominal mains, varied at the present ones";
  EXPECT_TRUE(vary(with, gain, "", -0.5, request(3), 24)) << "without a check the range of the file";
  EXPECT_DOUBLE_EQ(with.conditions.gain_K_per_s, 2.08 * 0.9);
  with = ingredients();
  with.conditions.leak_Pa_per_s = 3;
  EXPECT_TRUE(vary(with, leak, "", -1, checked, 24));
  EXPECT_DOUBLE_EQ(with.conditions.leak_Pa_per_s, 0) << "nothing leaks out";
  EXPECT_TRUE(with.cut);
  with = ingredients();
  with.conditions.pump_time_constant_s = 10;
  EXPECT_TRUE(vary(with, pump, "", 1, checked, 24));
  EXPECT_DOUBLE_EQ(with.conditions.pump_time_constant_s, 28);
  EXPECT_FALSE(with.cut);
  with.conditions.pump_time_constant_s = 10;
  EXPECT_TRUE(vary(with, pump, "", -1, checked, 24));
  EXPECT_DOUBLE_EQ(with.conditions.pump_time_constant_s, 0.5);
  EXPECT_TRUE(with.cut);
}

TEST(Vary, PercentagesScaleAndThicknessChangesGreenLayersOnly) {
  Ingredients with = ingredients();
  EXPECT_TRUE(vary(with, input("tray_mass", trade::InputOf::load, -3, 4), "", 1, request(3), 24));
  EXPECT_DOUBLE_EQ(with.tray_kg, 0.0104);
  with.pieces.resize(1);
  with.pieces[0].sections.resize(1);
  with.pieces[0].sections[0].layers.resize(2);
  for (trade::Layer& layer : with.pieces[0].sections[0].layers) layer.thickness.value = quantity::Length::si(1e-3);
  with.pieces[0].sections[0].layers[1].green = true;
  EXPECT_TRUE(vary(with, input("build_up_thickness", trade::InputOf::piece, -10, 10), "", -1, request(3), 24));
  EXPECT_DOUBLE_EQ(with.pieces[0].sections[0].layers[0].thickness.value.si(), 1e-3);
  EXPECT_DOUBLE_EQ(with.pieces[0].sections[0].layers[1].thickness.value.si(), 0.9e-3);
}

TEST(Vary, AMaterialGoesToTheEndsOfItsOwnRange) {
  Ingredients with = ingredients();
  EXPECT_TRUE(vary(with, input("emissivity", trade::InputOf::material), "block", -1, request(3), 24));
  EXPECT_DOUBLE_EQ(with.materials["block"].properties["emissivity"].value, 0.8);
  with = ingredients();
  EXPECT_TRUE(vary(with, input("emissivity", trade::InputOf::material), "block", 0.5, request(3), 24));
  EXPECT_DOUBLE_EQ(with.materials["block"].properties["emissivity"].value, 0.925);
  EXPECT_FALSE(vary(with, input("nothing_known", trade::InputOf::material), "block", 1, request(3), 24)) << "no range";
  EXPECT_FALSE(vary(with, input("viscosity_A", trade::InputOf::material), "block", 1, request(3), 24)) << "not there";
}

TEST(Vary, EnergyAndRateOfCrystallisationKeepTheirAnchor) {
  const auto anchor_K = [](const trade::Material& material) {
    physics::CrystallisationStep step;
    step.exponent = material.find("crystallisation_2_exponent")->value;
    step.energy_kJ_per_mol = material.find("crystallisation_2_energy")->value;
    step.rate_per_s = std::exp(material.find("crystallisation_2_rate")->value);
    return physics::anchor_of_rate_K(step, 10.0 / 60);
  };
  Ingredients with = ingredients();
  const double before_K = anchor_K(with.materials["block"]);
  EXPECT_TRUE(vary(with, input("crystallisation_2_energy", trade::InputOf::material), "block", 1, request(3), 24));
  EXPECT_DOUBLE_EQ(with.materials["block"].properties["crystallisation_2_energy"].value, 460);
  EXPECT_NEAR(before_K, 815 + 273.15, 0.01) << "the published anchor";
  EXPECT_NEAR(anchor_K(with.materials["block"]), before_K, 1e-6);
}

TEST(Vary, ATransitionTurnsTheLawAboutTheNominalTemperature) {
  Ingredients with = ingredients();
  trade::Material& glass = with.materials["glass"];
  glass =
      trade::read_noun<trade::Material>(trade::source_of("zirconia-veneer.toml", trade::shipped_text("materials/zirconia-veneer.toml")));
  const double nominal_C = glass.find("nominal_temperature")->value;
  const physics::Vft before = powder_of(glass).vft;
  EXPECT_TRUE(vary(with, input("glass_transition", trade::InputOf::material), "glass", 1, request(3), 24));
  const physics::Vft after = powder_of(glass).vft;
  EXPECT_NEAR(physics::log10_viscosity(after, glass.find("glass_transition")->value), 12, 1e-9);
  EXPECT_EQ(glass.find("glass_transition")->value, glass.find("glass_transition")->high);
  EXPECT_NEAR(physics::log10_viscosity(after, nominal_C), physics::log10_viscosity(before, nominal_C), 1e-9);
  EXPECT_GT(std::abs(physics::log10_viscosity(after, nominal_C - 30) - physics::log10_viscosity(before, nominal_C - 30)), 0.03);
}

TEST(Vary, AGaugeKnowsOnlyItsOwnRange) {
  trade::ResolvedFiring with_dial = request(3);
  with_dial.furnace.pump.gauge.value = trade::GaugeKind::below_ambient;
  Ingredients with = ingredients();
  with.conditions.pump_ultimate_Pa = 5000;
  EXPECT_FALSE(vary(with, input("pump_ultimate", trade::InputOf::furnace, -10, 10), "", 1, with_dial, 24));
  EXPECT_TRUE(vary(with, input("pump_ultimate_by_dial", trade::InputOf::furnace, -50, 50), "", 1, with_dial, 24));
  EXPECT_DOUBLE_EQ(with.conditions.pump_ultimate_Pa, 7500);
}

TEST(Vary, HumidityIsCutWhereAirIsFull) {
  Ingredients with = ingredients();
  with.conditions.room_humidity = 0.95;
  EXPECT_TRUE(vary(with, input("room_humidity", trade::InputOf::load, -0.1, 0.1), "", 1, request(3), 24));
  EXPECT_DOUBLE_EQ(with.conditions.room_humidity, 1);
  EXPECT_TRUE(with.cut);
}

TEST(Vary, EveryShippedInputIsKnown) {
  for (const trade::DecidingInput& one : trade::read_deciding_inputs("inputs.toml", trade::shipped_text("limits/inputs.toml"))) {
    Ingredients with = ingredients();
    EXPECT_NO_THROW(static_cast<void>(vary(with, one, "block", 1, request(3), 24))) << one.name;
  }
  Ingredients with = ingredients();
  EXPECT_THROW(static_cast<void>(vary(with, input("moonlight", trade::InputOf::load, -1, 1), "", 1, request(3), 24)), std::logic_error);
}

}  // namespace
}  // namespace heatwork::firing
