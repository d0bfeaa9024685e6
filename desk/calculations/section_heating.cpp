#include "physics/section_heating.h"

#include <fmt/core.h>

#include <algorithm>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/errors.h"

namespace heatwork::desk {
namespace {

// Finer than a rehearsal takes it: here one number is looked at by itself, and time is plenty.
constexpr double step_tolerance_K = 0.002;
constexpr std::size_t spaces_in_all = 80;

constexpr Field curve_key(std::string_view name, std::string_view meaning, std::string_view unit) {
  return {.name = name, .meaning = meaning, .unit = unit, .shape = Shape::number_or_list, .most = 6};
}
constexpr std::array<Field, 7> layer_keys = {{
    positive_key("thickness_mm", "of the layer", "mm", 1000),
    positive_key("density_kg_per_m3", "of the layer", "kg/m3", 30000),
    curve_key("conductivity_W_per_mK", "of the layer", "W/(m K)"),
    curve_key("specific_heat_J_per_kgK", "of the layer", "J/(kg K)"),
    optional_key(positive_key("youngs_GPa", "not used here; a layer may be given whole", "GPa", 2000)),
    optional_key(between_key("poisson", "not used here", "", 0, 0.5)),
    optional_key(curve_key("expansion_ppm_per_K", "not used here", "ppm/K")),
}};
constexpr std::array<Field, 7> heating_inputs = {{
    {.name = "layers", .meaning = "from the inside out", .shape = Shape::objects, .most = 20, .parts = layer_keys},
    temperature_key("start_C", "of the whole section"),
    temperature_history_key("surroundings_history", "radiating and gas temperature around it, linear between points"),
    between_key("emissivity", "of the heated faces; 0 is without radiation", "", 0, 1),
    between_key("film_W_per_m2K", "conductance of the film of gas on the heated faces", "W/(m2 K)", 0, 1e6),
    between_key("sides", "heated: 1 the outside, the inside face passing no heat; 2 both", "", 1, 2),
    {.name = "times_s",
     .meaning = "at which the answer is wanted, within the history",
     .unit = "s",
     .at_least = -longest_s,
     .at_most = longest_s,
     .shape = Shape::numbers,
     .rising = true},
}};
constexpr std::array<Field, 2> heating_outputs = {{
    {.name = "surface_C", .meaning = "of the outer face at each time", .unit = "°C", .shape = Shape::numbers},
    {.name = "core_C", .meaning = "of the inside face, or with both sides heated of the middle", .unit = "°C", .shape = Shape::numbers},
}};

physics::TemperatureProperty curve_of(const Inputs& layer, std::string_view key, double low_C, double high_C) {
  const std::vector<double> coefficients = layer.numbers(key);
  const physics::TemperatureProperty curve = physics::TemperatureProperty::polynomial(coefficients);
  constexpr int samples = 200;
  for (int i = 0; i <= samples; ++i) {
    const double at_C = low_C + (high_C - low_C) * i / samples;
    if (!(curve.at_C(at_C) > 0)) {
      throw Failure(ErrorWord::bad_value,
                    fmt::format("\"{}\" of a layer is {} at {} °C, but must be above 0 wherever the section may come.", key,
                                json_number(curve.at_C(at_C)), json_number(at_C)));
    }
  }
  return curve;
}

std::vector<physics::Layer> layers_of(const Inputs& in, double low_C, double high_C) {
  std::vector<physics::Layer> layers;
  for (const Inputs& given : in.objects("layers")) {
    physics::Layer layer;
    layer.thickness_m = given.number("thickness_mm") / 1000;
    layer.density_kg_per_m3 = given.number("density_kg_per_m3");
    layer.conductivity_W_per_mK = curve_of(given, "conductivity_W_per_mK", low_C, high_C);
    layer.specific_heat_J_per_kgK = curve_of(given, "specific_heat_J_per_kgK", low_C, high_C);
    layers.push_back(layer);
  }
  return layers;
}

std::vector<double> celsius(std::vector<double> temperatures_K) {
  for (double& temperature : temperatures_K) temperature -= physics::zero_celsius_K;
  return temperatures_K;
}

Json answer_heating(const Inputs& in) {
  const std::vector<double> history_C = in.column("surroundings_history", 1);
  const auto [low, high] = std::minmax_element(history_C.begin(), history_C.end());
  const double start_C = in.number("start_C");
  const double sides = in.number("sides");
  if (sides != 1 && sides != 2)
    throw Failure(ErrorWord::bad_value, fmt::format("\"sides\" is {}, but must be 1 or 2.", json_number(sides)));
  physics::Exposure exposure;
  exposure.time_s = in.column("surroundings_history", 0);
  exposure.surroundings_K = kelvins(history_C);
  exposure.emissivity = in.number("emissivity");
  exposure.film_W_per_m2K = in.number("film_W_per_m2K");
  exposure.both_faces = sides == 2;
  const std::vector<double> times_s = in.numbers("times_s");
  if (times_s.front() < exposure.time_s.front() || times_s.back() > exposure.time_s.back()) {
    throw Failure(ErrorWord::bad_value, fmt::format("\"times_s\" runs from {} to {} s, but must lie within the history, from {} to {} s.",
                                                    json_number(times_s.front()), json_number(times_s.back()),
                                                    json_number(exposure.time_s.front()), json_number(exposure.time_s.back())));
  }
  const std::vector<physics::Layer> layers = layers_of(in, std::min(start_C, *low), std::max(start_C, *high));
  physics::SectionAccuracy accuracy;
  accuracy.step_tolerance_K = step_tolerance_K;
  accuracy.total_spaces = spaces_in_all;
  physics::SectionHeater heater(layers, physics::SectionForm::plate, 0, accuracy);
  const physics::SectionTemperatures& found = heater.solve({&exposure, 1}, start_C + physics::zero_celsius_K, times_s);
  return JsonObject{{"surface_C", celsius(found.surface_K)}, {"core_C", celsius(found.core_K)}};
}

}  // namespace

constinit const Calculation section_heating_calculation = {
    .name = "section-heating",
    .purpose = "surface and core of a wall as it is heated",
    .equation = "rho cp dT/dt = d/dx(k dT/dx); faces: emissivity sigma (Ts^4 - T^4) + film (Ts - T).",
    .source = "Fourier; Stefan and Boltzmann",
    .inputs = heating_inputs,
    .outputs = heating_outputs,
    .exactly_one_of = {},
    .answer = answer_heating};

}  // namespace heatwork::desk
