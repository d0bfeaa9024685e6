#include "physics/crystallisation.h"

#include <cmath>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/materials.h"
#include "firing/material_physics.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 3> step_keys = {between_key("exponent", "n of X = 1 - exp(-z^n)", "", 0.1, 10),
                                            positive_key("energy_kJ_per_mol", "E of k = rate exp(-E / (R T))", "kJ/mol", 5000),
                                            positive_key("rate_per_s", "k0 of the same", "1/s", 1e200)};
constexpr std::array<Field, 3> crystallisation_inputs = {{
    {.name = "class", .meaning = "a shipped class of material", .shape = Shape::word, .required = false, .names = crystallising_classes},
    {.name = "steps",
     .meaning =
         "of a glass of your own, in order; each is fed by the one before, over-firing and coarsening are those of the shipped blocks",
     .shape = Shape::objects,
     .required = false,
     .most = 8,
     .parts = step_keys},
    temperature_history_key("temperature_history", "of the piece, linear between points"),
}};
constexpr std::array<Field, 4> crystallisation_outputs = {{
    {.name = "fraction",
     .meaning = "crystallised, one entry a step; of the last step less what over-firing has taken",
     .shape = Shape::numbers},
    {.name = "exponent_argument",
     .meaning = "z of each step; null where the step was complete as delivered",
     .shape = Shape::numbers,
     .may_be_null = true},
    answer_key("crystal_um", "mean diameter of the crystals; indicative", "µm"),
    answer_key("transmittance_percent", "at 550 nm, from that diameter; indicative", "%"),
}};
constexpr std::array<std::string_view, 1> steps_keys = {"steps"};
constexpr std::array<Together, 2> crystallisation_choice = {class_keys, steps_keys};

physics::CrystallisationProperties properties_of(const Inputs& in) {
  if (in.has("class")) return firing::crystallisation_of(shipped_material(in.word("class")));
  physics::CrystallisationProperties properties;
  for (const Inputs& step : in.objects("steps")) {
    properties.steps.push_back({step.number("exponent"), step.number("energy_kJ_per_mol"), step.number("rate_per_s"), false});
  }
  return properties;
}

Json answer_crystallisation(const Inputs& in) {
  const physics::CrystallisationProperties properties = properties_of(in);
  const std::vector<double> times_s = in.column("temperature_history", 0);
  const std::vector<double> temperatures_K = kelvins(in.column("temperature_history", 1));
  physics::CrystallisationState state = physics::start_crystallisation(properties);
  physics::advance_crystallisation(properties, state, times_s, temperatures_K);
  JsonList fraction, argument;
  for (std::size_t i = 0; i < properties.steps.size(); ++i) {
    const bool last = i + 1 == properties.steps.size();
    fraction.emplace_back(last ? physics::net_fraction(properties, state)
                               : physics::transformed_fraction(state.z[i], properties.steps[i].exponent));
    argument.push_back(std::isfinite(state.z[i]) ? Json(state.z[i]) : Json());
  }
  return JsonObject{{"fraction", fraction},
                    {"exponent_argument", argument},
                    {"crystal_um", state.crystal_um},
                    {"transmittance_percent", physics::transmittance_550nm_percent(state.crystal_um)}};
}

}  // namespace

constinit const Calculation crystallisation_calculation = {
    .name = "crystallisation",
    .purpose = "how far a block crystallises in a firing",
    .equation = "dz/dt = k0 exp(-E / (R T)), X = 1 - exp(-z^n), a step fed by the one before.",
    .source = "sites saturated, Avrami form",
    .inputs = crystallisation_inputs,
    .outputs = crystallisation_outputs,
    .exactly_one_of = crystallisation_choice,
    .answer = answer_crystallisation};

}  // namespace heatwork::desk
