#include "desk/calculations/glass.h"

#include "desk/calculations/models.h"
#include "physics/layer.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 7> structure_glass_keys = {{
    optional_key(liquid_key),
    reference_key,
    activation_key,
    nonlinearity_key,
    optional_key(shear_key),
    structure_key,
    bulk_key,
}};
constexpr std::array<Field, 3> fictive_inputs = {{
    {.name = "glass",
     .meaning = "may be given whole; expansion, shear and bulk are not used here",
     .shape = Shape::object,
     .parts = structure_glass_keys},
    positive_key("rate_K_per_min", "of cooling, constant", "K/min", 1e6),
    temperature_key("start_C", "where the glass is in equilibrium"),
}};
constexpr std::array<Field, 1> fictive_outputs = {{
    answer_key("fictive_C", "at which the structure stands still", "°C"),
}};

Json answer_fictive(const Inputs& in) {
  const double frozen_K = physics::frozen_fictive_K(relaxing_glass_of(in.object("glass")), in.number("start_C") + physics::zero_celsius_K,
                                                    in.number("rate_K_per_min") / 60);
  return JsonObject{{"fictive_C", frozen_K - physics::zero_celsius_K}};
}

}  // namespace

constinit const Calculation fictive_temperature_calculation = {
    .name = "fictive-temperature",
    .purpose = "where a cooled glass freezes",
    .equation = "dTf_j = (T - Tf_j) / lambda_j dxi; dxi = exp(H/R (1/T_ref - x/T - (1 - x)/Tf)) dt; Tf = sum C_j Tf_j.",
    .source = "Tool, Narayanaswamy, Moynihan",
    .inputs = fictive_inputs,
    .outputs = fictive_outputs,
    .exactly_one_of = {},
    .answer = answer_fictive};

}  // namespace heatwork::desk
