#include <algorithm>
#include <cmath>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/materials.h"
#include "firing/material_physics.h"
#include "physics/sintering.h"
#include "physics/zirconia_sintering.h"

namespace heatwork::desk {
namespace {

constexpr std::array<std::string_view, 3> standing_words = {"measured", "extrapolated", "outside"};

constexpr std::array<Field, 8> zirconia_inputs = {{
    {.name = "class", .meaning = "a shipped class of zirconia", .shape = Shape::word, .required = false, .names = zirconia_classes},
    optional_key(between_key("energy_kJ_per_mol", "E of Theta = integral of exp(-E / (R T)) / T dt", "kJ/mol", 10, 2000)),
    optional_key(between_key("green_density", "relative density before sintering", "", 0.3, 0.75)),
    optional_key(between_key("a", "ln(s/K) at which the curve rises", "", -200, 100)),
    optional_key(between_key("b", "over how much of ln Theta it rises", "", 0.01, 100)),
    optional_key(between_key("nu", "exponent of the curve", "", 0.01, 100)),
    optional_key(
        between_key("cap", "relative density that the curve is not followed beyond; of the class, or 0.99, where not given", "", 0.9, 1)),
    temperature_history_key("temperature_history", "of the piece, linear between points, up to 1700 °C"),
}};
constexpr std::array<Field, 9> zirconia_outputs = {{
    answer_key("relative_density", "not beyond the cap; over 0.95 indicative", ""),
    null_answer_key("density_low", "lower end of its range, none where nothing is known of such heating", ""),
    null_answer_key("density_high", "upper end", ""),
    answer_key("log_theta", "ln of Theta in s/K", ""),
    answer_key("grain_um", "mean diameter of the grains, to 35 %; with values of your own those of the shipped class", "µm"),
    answer_key("linear_shrinkage", "of each length, 0 to 1", ""),
    null_answer_key("heating_rate_K_per_min", "steady heating that does the same while the piece densifies", "K/min"),
    {.name = "standing",
     .meaning = "against the 2 to 20 K/min that the curve was measured at; extrapolated is up to ten times slower or faster",
     .shape = Shape::word,
     .words = standing_words},
    {.name = "final_stage", .meaning = "over 0.95, where nothing was measured", .shape = Shape::truth},
}};
constexpr std::array<std::string_view, 5> own_keys = {"energy_kJ_per_mol", "green_density", "a", "b", "nu"};
constexpr std::array<Together, 2> zirconia_choice = {class_keys, own_keys};

physics::ZirconiaProperties properties_of(const Inputs& in) {
  physics::ZirconiaProperties properties;
  physics::MasterCurve& curve = properties.curve;
  if (in.has("class")) {
    properties = firing::zirconia_of(shipped_material(in.word("class")));
  } else {
    curve.energy_kJ_per_mol = in.number("energy_kJ_per_mol");
    curve.green_density = in.number("green_density");
    curve.a = in.number("a");
    curve.b = in.number("b");
    curve.nu = in.number("nu");
  }
  curve.cap = in.number_or("cap", curve.cap);
  return properties;
}

Json answer_zirconia(const Inputs& in) {
  const physics::ZirconiaProperties properties = properties_of(in);
  physics::ZirconiaState state = physics::start_zirconia(properties);
  physics::advance_zirconia(properties, state, in.column("temperature_history", 0), kelvins(in.column("temperature_history", 1)));
  const double density = physics::sintered_density(properties.curve, state.log_theta);
  const physics::CurveStanding standing = physics::curve_standing(state);
  const double error = physics::density_error(standing);
  const bool known = std::isfinite(error);
  const double rate_K_per_min = 60 * physics::densifying_rate_K_per_s(state);
  const double green = properties.curve.green_density;
  return JsonObject{{"relative_density", density},
                    {"density_low", known ? Json(std::max(green, density - error)) : Json()},
                    {"density_high", known ? Json(std::min(1.0, density + error)) : Json()},
                    {"log_theta", state.log_theta},
                    {"grain_um", state.grain_um},
                    {"linear_shrinkage", physics::linear_shrinkage(green, density)},
                    {"heating_rate_K_per_min", std::isfinite(rate_K_per_min) ? Json(rate_K_per_min) : Json()},
                    {"standing", standing_words[static_cast<std::size_t>(standing)]},
                    {"final_stage", density > physics::densest_measured}};
}

}  // namespace

constinit const Calculation zirconia_sintering_calculation = {
    .name = "zirconia-sintering",
    .purpose = "how dense zirconia sinters, its grains",
    .equation = "rho = rho0 + (1 - rho0) / (1 + exp(-(ln Theta - a) / b))^nu, Theta = integral of exp(-E / (R T)) / T dt.",
    .source = "master sintering curve, one powder",
    .inputs = zirconia_inputs,
    .outputs = zirconia_outputs,
    .exactly_one_of = zirconia_choice,
    .answer = answer_zirconia};

}  // namespace heatwork::desk
