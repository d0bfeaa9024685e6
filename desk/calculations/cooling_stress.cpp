#include <fmt/core.h>

#include <algorithm>

#include "desk/calculations/glass.h"
#include "desk/calculations/models.h"
#include "desk/errors.h"
#include "physics/cooling_error.h"

namespace heatwork::desk {
namespace {

using physics::StressForm, physics::zero_celsius_K;

constexpr std::array<std::string_view, 6> forms = {"plate-free", "plate-flat", "plate-plane-strain", "membrane", "cylinder", "sphere"};
constexpr std::array<Field, 7> glass_keys = {
    {liquid_key, reference_key, activation_key, nonlinearity_key, shear_key, structure_key, bulk_key}};
constexpr Field curve_key(std::string_view name, std::string_view meaning, std::string_view unit) {
  return {.name = name, .meaning = meaning, .unit = unit, .shape = Shape::number_or_list, .most = 6};
}
constexpr std::array<Field, 8> layer_keys = {{
    positive_key("thickness_mm", "of the layer", "mm", 1000),
    positive_key("youngs_GPa", "Young's modulus", "GPa", 2000),
    between_key("poisson", "Poisson's ratio", "", 0, 0.499),
    positive_key("density_kg_per_m3", "of the layer", "kg/m3", 30000),
    curve_key("conductivity_W_per_mK", "of the layer", "W/(m K)"),
    curve_key("specific_heat_J_per_kgK", "of the layer", "J/(kg K)"),
    curve_key("expansion_ppm_per_K", "instantaneous, of a glass the solid", "ppm/K"),
    {.name = "glass", .meaning = "where the layer relaxes", .shape = Shape::object, .required = false, .parts = glass_keys},
}};
constexpr std::array<Field, 2> film_keys = {between_key("inner", "on the inside face", "W/(m2 K)", 0, 1e6),
                                            between_key("outer", "on the outside face", "W/(m2 K)", 0, 1e6)};
constexpr std::array<Field, 2> mass_keys = {positive_key("heat_capacity_J_per_m2K", "per area of the inside face", "J/(m2 K)", 1e9),
                                            between_key("gap_W_per_m2K", "from it to the inside face", "W/(m2 K)", 0, 1e6)};
constexpr std::array<Field, 10> inputs = {{
    {.name = "geometry",
     .meaning = "plane strain neither bends nor strains along one direction; a membrane is half a sandwich of one temperature",
     .shape = Shape::word,
     .words = forms},
    optional_key(positive_key("inner_radius_mm", "of cylinder and sphere", "mm", 10000)),
    {.name = "layers", .meaning = "from the inside out", .shape = Shape::objects, .most = 20, .parts = layer_keys},
    temperature_key("start_C", "of the whole, in equilibrium and free of stress"),
    temperature_key("ambient_C", "to which the films lead"),
    {.name = "film_W_per_m2K", .meaning = "on both faces", .shape = Shape::object, .required = false, .parts = film_keys},
    optional_key(temperature_history_key("temperature_history", "of the whole section, one temperature through it")),
    optional_key(temperature_key("film_from_C", "the history until it has come down to it, the films from there")),
    {.name = "inner_mass", .meaning = "a support behind the inside face", .shape = Shape::object, .required = false, .parts = mass_keys},
    {.name = "report_at_s",
     .meaning = "times at which stresses are wanted too",
     .unit = "s",
     .at_least = -longest_s,
     .at_most = longest_s,
     .shape = Shape::numbers,
     .required = false,
     .rising = true,
     .most = 1000},
}};
constexpr std::array<Field, 8> layer_answers = {{
    answer_key("inner_hoop_MPa", "along the layer at its inner face, tension positive", "MPa"),
    answer_key("outer_hoop_MPa", "at its outer face", "MPa"),
    answer_key("middle_hoop_MPa", "half-way through", "MPa"),
    answer_key("lowest_hoop_MPa", "anywhere in the layer", "MPa"),
    answer_key("highest_hoop_MPa", "anywhere in the layer", "MPa"),
    answer_key("radial_at_inner_MPa", "across the layer at its inner face", "MPa"),
    null_answer_key("fictive_C", "mean of the structure over the volume of the layer; null for an elastic one", "°C"),
    answer_key("transient_highest_MPa", "highest hoop stress at any time until then", "MPa"),
}};
constexpr std::array<Field, 2> residual_answers = {{
    {.name = "layers", .meaning = "in the order given", .shape = Shape::objects, .parts = layer_answers},
    answer_key("curvature_per_m", "positive where the outside grows longer; 0 but for a free plate", "1/m"),
}};
constexpr std::array<Field, 3> at_answers = {{
    answer_key("time_s", "of the report", "s"),
    residual_answers[0],
    residual_answers[1],
}};
constexpr std::array<Field, 5> outputs = {{
    {.name = "residual", .meaning = "at the end", .shape = Shape::object, .parts = residual_answers},
    {.name = "at", .meaning = "one for each time asked for", .shape = Shape::objects, .parts = at_answers},
    answer_key("largest_difference_K", "between any two places at one time, a support among them", "K"),
    answer_key("error_MPa", "of the stresses at the end, from a run of twice the step and fewer points", "MPa"),
    answer_key("imbalance", "of force and moment, relative to the highest stress: the largest of all steps", ""),
}};

physics::TemperatureProperty curve_of(const Inputs& layer, std::string_view key, double scale, const std::array<double, 2>& range_C) {
  std::vector<double> coefficients = layer.numbers(key);
  for (double& c : coefficients) c *= scale;
  const auto curve = physics::TemperatureProperty::polynomial(coefficients);
  constexpr int samples = 100;
  for (int i = 0; key != "expansion_ppm_per_K" && i <= samples; ++i) {
    const double at_C = range_C[0] + (range_C[1] - range_C[0]) * i / samples;
    if (!(curve.at_C(at_C) > 0))
      throw Failure(ErrorWord::bad_value,
                    fmt::format("\"{}\" of a layer is {} at {} °C, but must be above 0 wherever the section may come.", key,
                                json_number(curve.at_C(at_C)), json_number(at_C)));
  }
  return curve;
}

physics::StressGlass glass_of(const Inputs& given) {
  physics::StressGlass glass;
  glass.relaxing = relaxing_glass_of(given);
  glass.liquid_expansion_per_K = given.number("liquid_expansion_ppm_per_K") * 1e-6;
  glass.shear = spectrum_of(given, "shear");
  if (given.has("bulk")) {
    glass.bulk_remaining = given.object("bulk").number("remaining");
    glass.bulk = spectrum_of(given.object("bulk"), "terms");
  }
  return glass;
}

std::vector<physics::StressLayer> layers_of(const Inputs& in, const std::array<double, 2>& range_C) {
  std::vector<physics::StressLayer> layers;
  for (const Inputs& given : in.objects("layers")) {
    physics::StressLayer& layer = layers.emplace_back();
    layer.heat.thickness_m = given.number("thickness_mm") / 1000;
    layer.heat.density_kg_per_m3 = given.number("density_kg_per_m3");
    layer.heat.conductivity_W_per_mK = curve_of(given, "conductivity_W_per_mK", 1, range_C);
    layer.heat.specific_heat_J_per_kgK = curve_of(given, "specific_heat_J_per_kgK", 1, range_C);
    layer.youngs_Pa = given.number("youngs_GPa") * 1e9;
    layer.poisson = given.number("poisson");
    layer.expansion_per_K = curve_of(given, "expansion_ppm_per_K", 1e-6, range_C);
    if (given.has("glass")) layer.glass = glass_of(given.object("glass"));
  }
  return layers;
}

physics::CoolingCourse course_of(const Inputs& in) {
  const bool history = in.has("temperature_history"), film = in.has("film_W_per_m2K");
  if (!history && !film)
    throw Failure(ErrorWord::bad_value,
                  "\"film_W_per_m2K\", \"temperature_history\", or both with \"film_from_C\" must be given; none is.");
  if (in.has("film_from_C") != (history && film))
    throw Failure(ErrorWord::bad_value,
                  "\"film_from_C\" is given together with both \"film_W_per_m2K\" and \"temperature_history\", and only then.");
  physics::CoolingCourse course;
  course.ambient_K = in.number("ambient_C") + zero_celsius_K;
  if (history) {
    course.time_s = in.column("temperature_history", 0);
    course.temperature_K = kelvins(in.column("temperature_history", 1));
  }
  if (film) {
    const Inputs faces = in.object("film_W_per_m2K");
    course.inner = physics::FaceCooling{faces.number("inner"), 0};
    course.outer = physics::FaceCooling{faces.number("outer"), 0};
  }
  if (in.has("film_from_C")) course.film_from_K = in.number("film_from_C") + zero_celsius_K;
  if (in.has("inner_mass"))
    course.mass = {in.object("inner_mass").number("heat_capacity_J_per_m2K"), in.object("inner_mass").number("gap_W_per_m2K"), 0};
  if (in.has("report_at_s")) course.report_at_s = in.numbers("report_at_s");
  if (const double begins_s = history ? course.time_s.front() : 0; !course.report_at_s.empty() && course.report_at_s.front() < begins_s)
    throw Failure(ErrorWord::bad_value, fmt::format("\"report_at_s\"[0] is {} s, but must not be before the start at {} s.",
                                                    json_number(course.report_at_s.front()), json_number(begins_s)));
  return course;
}

JsonObject report_of(const physics::CoolingReport& report) {
  JsonList layers;
  for (const physics::LayerCooling& layer : report.layers) {
    layers.push_back(JsonObject{{"inner_hoop_MPa", layer.inner_hoop_Pa / 1e6},
                                {"outer_hoop_MPa", layer.outer_hoop_Pa / 1e6},
                                {"middle_hoop_MPa", layer.middle_hoop_Pa / 1e6},
                                {"lowest_hoop_MPa", layer.lowest_hoop_Pa / 1e6},
                                {"highest_hoop_MPa", layer.highest_hoop_Pa / 1e6},
                                {"radial_at_inner_MPa", layer.radial_at_inner_Pa / 1e6},
                                {"fictive_C", layer.fictive_K > 0 ? Json(layer.fictive_K - zero_celsius_K) : Json()},
                                {"transient_highest_MPa", layer.transient_highest_Pa / 1e6}});
  }
  return JsonObject{{"layers", layers}, {"curvature_per_m", report.curvature_per_m}};
}

Json answer(const Inputs& in) {
  std::size_t form = 0;
  while (forms.at(form) != in.word("geometry")) ++form;
  const bool curved = form >= 4;
  if (curved && !in.has("inner_radius_mm"))
    throw Failure(ErrorWord::bad_value, fmt::format("\"inner_radius_mm\" is missing: a {} needs it.", in.word("geometry")));
  const physics::CoolingCourse course = course_of(in);
  std::array<double, 2> range_C = {std::min(in.number("start_C"), in.number("ambient_C")),
                                   std::max(in.number("start_C"), in.number("ambient_C"))};
  for (const double at_K : course.temperature_K)
    range_C = {std::min(range_C[0], at_K - zero_celsius_K), std::max(range_C[1], at_K - zero_celsius_K)};
  const std::vector<physics::StressLayer> layers = layers_of(in, range_C);
  constexpr physics::StressAccuracy accuracy{0.5, 15, 7};  // finer than a rehearsal takes it
  const auto [fine, error_Pa] = physics::estimated_cooling(static_cast<StressForm>(form), curved ? in.number("inner_radius_mm") / 1000 : 0,
                                                           layers, in.number("start_C") + zero_celsius_K, course, accuracy);
  JsonList at;
  for (std::size_t i = 0; i + 1 < fine.size(); ++i) {
    JsonObject one = report_of(fine[i]);
    one.insert(one.begin(), {"time_s", fine[i].time_s});
    at.push_back(one);
  }
  return JsonObject{{"residual", report_of(fine.back())},
                    {"at", at},
                    {"largest_difference_K", fine.back().largest_difference_K},
                    {"error_MPa", error_Pa / 1e6},
                    {"imbalance", fine.back().imbalance}};
}

}  // namespace

constinit const Calculation cooling_stress_calculation = {
    .name = "cooling-stress",
    .purpose = "stress while layers cool, and what stays",
    .equation = "shear (and bulk) relax on the clock of fictive-temperature; d eps = alpha_s dT + (alpha_l - alpha_s) dTf; forces balance.",
    .source = "Narayanaswamy, Markovsky, Soules",
    .inputs = inputs,
    .outputs = outputs,
    .exactly_one_of = {},
    .answer = answer};

}  // namespace heatwork::desk
