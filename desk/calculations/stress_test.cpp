// Keys and units of the calculations of stress are joined right; what they prove in full stands beside the models.
#include <gtest/gtest.h>

#include <string>

#include "desk/calculations/registry.h"
#include "desk/errors.h"

namespace heatwork::desk {
namespace {

Json ask(std::string_view name, const std::string& object) {
  return calculate_all(find_calculation(name), read_json("asked", object));
}

std::string refusal(std::string_view name, const std::string& object) {
  try {
    ask(name, object);
  } catch (const Failure& failure) {
    EXPECT_EQ(row(failure.error()).exit_code, 2);
    return failure.what();
  }
  ADD_FAILURE() << name << " took " << object;
  return {};
}

double number(const Json& answer, std::string_view key) {
  return *answer.find(key)->number();
}

const std::string elastic_layers = R"("layers": [
    {"thickness_mm": 0.7, "youngs_GPa": 205, "poisson": 0.30, "expansion_ppm_per_K": 10.5},
    {"thickness_mm": 1.5, "youngs_GPa": 65, "poisson": 0.21, "expansion_ppm_per_K": 9.5}], "temperature_change_K": -575})";
const std::string glass = R"({"reference_K": 869, "activation_K": 76200, "nonlinearity": 0.5,
    "structure": [[0.05523, 5.965e-4], [0.08205, 1.077e-2], [0.1215, 0.1362], [0.2286, 1.505], [0.2860, 6.747], [0.22662, 29.63]]})";

TEST(Calculate, LayeredElastic) {
  const Json strip = ask("layered-elastic", R"({"geometry": "strip-free", )" + elastic_layers);
  EXPECT_NEAR(number(strip, "curvature_per_m"), 0.389033, 4e-4);
  EXPECT_NEAR(number(strip.find("layers")->list()->at(0), "outer_hoop_MPa"), 40.110, 0.04);
  const Json sphere = ask("layered-elastic", R"({"geometry": "sphere", "inner_radius_mm": 4, )" + elastic_layers);
  EXPECT_NEAR(number(sphere.find("layers")->list()->at(1), "inner_radial_MPa"), 17.13, 0.03);
  EXPECT_EQ(refusal("layered-elastic", R"({"geometry": "sphere", )" + elastic_layers),
            "\"inner_radius_mm\" is missing: a sphere needs it.");
  EXPECT_EQ(refusal("layered-elastic", R"({"geometry": "plate", )" + elastic_layers),
            "\"geometry\" is \"plate\", but must be \"plate-free\", \"plate-flat\", \"strip-free\", \"ring\", \"cylinder\" or \"sphere\".");
}

TEST(Calculate, ThermalShock) {
  EXPECT_NEAR(number(ask("thermal-shock", R"({"biot": 1})"), "peak"), 0.2083, 0.002);
  EXPECT_EQ(refusal("thermal-shock", R"({"biot": 0})"), "\"biot\" is 0, but must be a number from 0.001 to 1000.");
}

TEST(Calculate, FictiveTemperature) {
  const std::string tail = R"(, "rate_K_per_min": 5, "start_C": 745.85})";
  EXPECT_NEAR(number(ask("fictive-temperature", R"({"glass": )" + glass + tail), "fictive_C"), 536.9, 0.3);
  EXPECT_EQ(refusal("fictive-temperature", R"({"glass": )" + glass + R"(, "rate_K_per_min": NaN, "start_C": 700})"),
            "\"rate_K_per_min\" is not a finite number, but must be a number above 0 and at most 1000000 K/min.");
  EXPECT_EQ(refusal("fictive-temperature", R"({"glass": {"reference_K": 869, "activation_K": 76200, "nonlinearity": 2,
                                              "structure": [[1, 1]]})" +
                                               tail),
            "\"glass\": \"nonlinearity\" is 2, but must be a number from 0 to 1.");
  EXPECT_EQ(refusal("fictive-temperature", R"({"glass": {"reference_K": 869, "activation_K": 76200, "nonlinearity": 0.5,
                                              "structure": [[0.5, 1]]})" +
                                               tail),
            "fictive-temperature has no answer here: The spectrum of the structure has weights that sum to 0.500000, but they must sum to "
            "1 within 0.01.");
}

std::string bilayer(const std::string& tail) {
  return R"({"geometry": "plate-flat", "layers": [
    {"thickness_mm": 0.7, "youngs_GPa": 205, "poisson": 0.3, "density_kg_per_m3": 6050, "conductivity_W_per_mK": 2.5,
     "specific_heat_J_per_kgK": 580, "expansion_ppm_per_K": 10.5},
    {"thickness_mm": 1.5, "youngs_GPa": 65, "poisson": 0.21, "density_kg_per_m3": 2400, "conductivity_W_per_mK": 1.3,
     "specific_heat_J_per_kgK": 1000, "expansion_ppm_per_K": 9.5, "glass": {"liquid_expansion_ppm_per_K": 28.5, "reference_K": 933.15,
     "activation_K": 70000, "nonlinearity": 0.5,
     "shear": [[0.05523, 6.658e-5], [0.08205, 1.197e-3], [0.1215, 1.514e-2], [0.2286, 0.1672], [0.2860, 0.7497], [0.22662, 3.292]],
     "structure": [[0.05523, 5.965e-4], [0.08205, 1.077e-2], [0.1215, 0.1362], [0.2286, 1.505], [0.2860, 6.747], [0.22662, 29.63]]}}],
     "start_C": 750, "ambient_C": 25)" +
         tail + "}";
}

TEST(Calculate, CoolingStress) {
  const Json found = ask("cooling-stress", bilayer(R"(, "film_W_per_m2K": {"inner": 60, "outer": 60}, "report_at_s": [5, 50])"));
  const JsonList& layers = *found.find("residual")->find("layers")->list();
  EXPECT_NEAR(number(layers[0], "middle_hoop_MPa"), 7.6, 0.3);
  EXPECT_NEAR(number(layers[1], "outer_hoop_MPa"), -15.3, 0.5);
  EXPECT_EQ(found.find("at")->list()->size(), 2U);
  EXPECT_LT(number(found, "error_MPa"), 0.05);
  EXPECT_LT(number(found, "imbalance"), 1e-8);
  EXPECT_EQ(refusal("cooling-stress", bilayer("")),
            "\"film_W_per_m2K\", \"temperature_history\", or both with \"film_from_C\" must be given; none is.");
  EXPECT_EQ(refusal("cooling-stress", bilayer(R"(, "film_W_per_m2K": {"inner": 0, "outer": 0})")),
            "cooling-stress has no answer here: Neither face has a film or radiates: the piece would never cool.");
  EXPECT_EQ(refusal("cooling-stress", bilayer(R"(, "film_W_per_m2K": {"inner": -1, "outer": 0})")),
            "\"film_W_per_m2K\": \"inner\" is -1, but must be a number from 0 to 1000000 W/(m2 K).");
}

}  // namespace
}  // namespace heatwork::desk
