#include <algorithm>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/materials.h"
#include "firing/material_physics.h"
#include "physics/equivalent_firing.h"
#include "physics/trial_firing.h"

namespace heatwork::desk {
namespace {

std::vector<std::string> deciding_classes() {
  std::vector<std::string> names = viscous_classes();
  for (const auto& more : {crystallising_classes(), zirconia_classes()}) names.insert(names.end(), more.begin(), more.end());
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> nominally_fired_classes() {
  std::vector<std::string> names = viscous_classes();
  std::erase_if(names, [](const std::string& name) { return shipped_material(name).find("nominal_temperature") == nullptr; });
  return names;
}

constexpr std::array<Field, 3> step_keys = {between_key("exponent", "n of X = 1 - exp(-z^n)", "", 0.1, 10),
                                            positive_key("energy_kJ_per_mol", "E of k = rate exp(-E / (R T))", "kJ/mol", 5000),
                                            positive_key("rate_per_s", "k0 of the same", "1/s", 1e200)};
constexpr std::array<Field, 12> equivalent_inputs = {{
    {.name = "class",
     .meaning = "a shipped class of material: powder, glaze, one that crystallises, or zirconia",
     .shape = Shape::word,
     .required = false,
     .names = deciding_classes},
    vft_A_key,
    vft_B_key,
    vft_T0_key,
    optional_key(between_key("crystal_factor", "by which crystals stiffen the melt; 1 without crystals", "", 1, 1e4)),
    optional_key(between_key("surface_tension_N_per_m", "of the melt", "N/m", 0.01, 2)),
    optional_key(between_key("particle_radius_um", "of the powder, by its specific surface", "µm", 0.05, 1000)),
    {.name = "steps",
     .meaning = "of a crystallising glass of your own, in order; each is fed by the one before",
     .shape = Shape::objects,
     .required = false,
     .most = 8,
     .parts = step_keys},
    optional_key(between_key("energy_kJ_per_mol", "of the master sintering curve of a zirconia of your own", "kJ/mol", 10, 2000)),
    temperature_history_key("history", "of the piece in the firing asked about, linear between points"),
    temperature_history_key("reference_history", "of the piece in the firing it is compared with; above -123.15 °C throughout"),
    {.name = "reference_hold_s",
     .meaning = "two times, from and to, within the reference history: time is put in at, or cut back from, the second",
     .unit = "s",
     .at_least = -longest_s,
     .at_most = longest_s,
     .shape = Shape::numbers,
     .rising = true,
     .fewest = 2,
     .most = 2},
}};
constexpr std::array<Field, 3> equivalent_outputs = {{
    answer_key("quantity", "of the history: heat-work of powders and glaze, z of the last step of what crystallises, ln Theta of zirconia",
               ""),
    null_answer_key("shift_K", "that makes the reference history do the same; null beyond -150 to 150 K", "K"),
    null_answer_key("hold_s", "added to the reference's hold for the same; null beyond minus the whole hold to plus 60 min", "s"),
}};
constexpr std::array<std::string_view, 6> own_clock_keys = {
    "A", "B", "T0_C", "crystal_factor", "surface_tension_N_per_m", "particle_radius_um"};
constexpr std::array<std::string_view, 1> own_steps_keys = {"steps"};
constexpr std::array<std::string_view, 1> own_energy_keys = {"energy_kJ_per_mol"};
constexpr std::array<Together, 4> equivalent_choice = {class_keys, own_clock_keys, own_steps_keys, own_energy_keys};

constexpr std::array<Field, 4> trial_inputs = {{
    {.name = "class",
     .meaning = "a shipped class of powder or glaze; of others no nominal firing is known",
     .shape = Shape::word,
     .names = nominally_fired_classes},
    temperature_history_key("history", "of the piece in one trial, linear between points"),
    optional_key(between_key("degree_K", "the trial looked like so many K too much (negative: too little); 0 where not given", "K",
                             -physics::widest_equivalent_shift_K, physics::widest_equivalent_shift_K)),
    optional_key(between_key("glass_transition_C", "where the glass has 10^12 Pa s; that of the class where not given", "°C", 200, 900)),
}};
constexpr std::array<Field, 4> trial_outputs = {{
    answer_key("A", "of log10(viscosity / Pa s) = A + B / (T - T0), of the glass", "log10 Pa s"),
    answer_key("B", "of the same law", "K"),
    answer_key("T0_C", "of the same law", "°C"),
    answer_key("shift_K", "of the temperature where the melt with its crystals has 10^5.1 Pa s, against the class", "K"),
}};

physics::PowderClock clock_of(const trade::Material& material) {
  const physics::PowderProperties powder = firing::powder_of(material);
  return {powder.vft, powder.crystal_factor, powder.surface_tension_N_per_m, powder.particle_radius_um};
}

physics::DecidingModel model_of(const Inputs& in) {
  if (in.has("class")) {
    const trade::Material& material = shipped_material(in.word("class"));
    if (firing::is_crystallising(material)) return firing::crystallisation_of(material);
    if (firing::is_zirconia(material)) return firing::zirconia_of(material).curve;
    return clock_of(material);
  }
  if (in.has("steps")) {
    physics::CrystallisationProperties properties;
    for (const Inputs& step : in.objects("steps")) {
      properties.steps.push_back({step.number("exponent"), step.number("energy_kJ_per_mol"), step.number("rate_per_s"), false});
    }
    return properties;
  }
  if (in.has("energy_kJ_per_mol")) {
    physics::MasterCurve curve;
    curve.energy_kJ_per_mol = in.number("energy_kJ_per_mol");
    return curve;
  }
  return physics::PowderClock{vft_of(in), in.number("crystal_factor"), in.number("surface_tension_N_per_m"),
                              in.number("particle_radius_um")};
}

physics::PieceHistory history_of(const Inputs& in, std::string_view key) {
  return {in.column(key, 0), kelvins(in.column(key, 1))};
}

Json answer_equivalent(const Inputs& in) {
  const std::vector<double> hold_s = in.numbers("reference_hold_s");
  const physics::EquivalentFiring found =
      physics::equivalent_firing(model_of(in), history_of(in, "history"), history_of(in, "reference_history"), hold_s[0], hold_s[1]);
  return JsonObject{{"quantity", found.quantity},
                    {"shift_K", found.shift_K ? Json(*found.shift_K) : Json()},
                    {"hold_s", found.hold_s ? Json(*found.hold_s) : Json()}};
}

Json answer_trial(const Inputs& in) {
  const trade::Material& material = shipped_material(in.word("class"));
  const double transition_C =
      in.has("glass_transition_C") ? in.number("glass_transition_C") : firing::property(material, "glass_transition");
  const physics::TrialGlass found = physics::glass_of_trial(clock_of(material), firing::property(material, "nominal_temperature"),
                                                            transition_C, history_of(in, "history"), in.number_or("degree_K", 0));
  return JsonObject{{"A", found.vft.A}, {"B", found.vft.B_K}, {"T0_C", found.vft.T0_C}, {"shift_K", found.shift_K}};
}

}  // namespace

constinit const Calculation equivalent_firing_calculation = {
    .name = "equivalent-firing",
    .purpose = "how many K, or s of hold, two firings differ by",
    .equation = "Q(history) = Q(reference + shift) = Q(reference, hold + time); Q is heat-work, z of the last step, or ln Theta.",
    .source = "bracketed root",
    .inputs = equivalent_inputs,
    .outputs = equivalent_outputs,
    .exactly_one_of = equivalent_choice,
    .answer = answer_equivalent};

constinit const Calculation trial_firing_calculation = {
    .name = "trial-firing",
    .purpose = "the viscosity of a powder from one firing",
    .equation = "heat-work of the glass in the history less degree_K = that of the class from 450 °C at 55 K/min, 60 s at its top.",
    .source = "calibration rule, assumed",
    .inputs = trial_inputs,
    .outputs = trial_outputs,
    .exactly_one_of = {},
    .answer = answer_trial};

}  // namespace heatwork::desk
