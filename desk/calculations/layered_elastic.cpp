#include "physics/layered_elastic.h"

#include <fmt/core.h>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/errors.h"

namespace heatwork::desk {
namespace {

constexpr std::array<std::string_view, 6> forms = {"plate-free", "plate-flat", "strip-free", "ring", "cylinder", "sphere"};
constexpr std::array<Field, 4> elastic_layer_keys = {{
    positive_key("thickness_mm", "of the layer", "mm", 1000),
    positive_key("youngs_GPa", "Young's modulus", "GPa", 2000),
    between_key("poisson", "Poisson's ratio", "", 0, 0.499),
    between_key("expansion_ppm_per_K", "linear", "ppm/K", -1000, 1000),
}};
constexpr std::array<Field, 4> elastic_inputs = {{
    {.name = "geometry",
     .meaning = "plate and strip may bend (free) or not (flat); a ring has no axial stress, a cylinder no axial force",
     .shape = Shape::word,
     .words = forms},
    optional_key(positive_key("inner_radius_mm", "of ring, cylinder and sphere", "mm", 10000)),
    {.name = "layers", .meaning = "from the inside out", .shape = Shape::objects, .most = 50, .parts = elastic_layer_keys},
    between_key("temperature_change_K", "from where the layers are free of stress; negative on cooling", "K", -5000, 5000),
}};
constexpr std::array<Field, 4> elastic_layer_answers = {{
    answer_key("inner_hoop_MPa", "along the layer at its inner face, tension positive", "MPa"),
    answer_key("outer_hoop_MPa", "at its outer face", "MPa"),
    answer_key("inner_radial_MPa", "across the layer at its inner face", "MPa"),
    answer_key("outer_radial_MPa", "at its outer face", "MPa"),
}};
constexpr std::array<Field, 2> elastic_outputs = {{
    {.name = "layers", .meaning = "in the order given", .shape = Shape::objects, .parts = elastic_layer_answers},
    answer_key("curvature_per_m", "positive where the outside grows longer; 0 but for free plates and strips", "1/m"),
}};

Json answer_elastic(const Inputs& in) {
  std::size_t form = 0;
  while (forms.at(form) != in.word("geometry")) ++form;
  const bool curved = form >= 3;
  if (curved && !in.has("inner_radius_mm"))
    throw Failure(ErrorWord::bad_value, fmt::format("\"inner_radius_mm\" is missing: a {} needs it.", in.word("geometry")));
  std::vector<physics::ElasticLayer> layers;
  for (const Inputs& given : in.objects("layers")) {
    layers.push_back({given.number("thickness_mm") / 1000, given.number("youngs_GPa") * 1e9, given.number("poisson"),
                      given.number("expansion_ppm_per_K") * 1e-6});
  }
  const physics::LayeredStress found =
      physics::layered_stress(static_cast<physics::ElasticForm>(form), curved ? in.number("inner_radius_mm") / 1000 : 0.0, layers,
                              in.number("temperature_change_K"));
  JsonList answers;
  for (const physics::LayerStress& layer : found.layers) {
    answers.push_back(JsonObject{{"inner_hoop_MPa", layer.inner_hoop_Pa / 1e6},
                                 {"outer_hoop_MPa", layer.outer_hoop_Pa / 1e6},
                                 {"inner_radial_MPa", layer.inner_radial_Pa / 1e6},
                                 {"outer_radial_MPa", layer.outer_radial_Pa / 1e6}});
  }
  return JsonObject{{"layers", answers}, {"curvature_per_m", found.curvature_per_m}};
}

constexpr std::array<Field, 1> shock_inputs = {{
    between_key("biot", "film times half thickness (one face cooled: whole thickness) over conductivity", "", 0.001, 1000),
}};
constexpr std::array<Field, 2> shock_outputs = {{
    answer_key("peak", "highest tension at the surface, over E alpha dT / (1 - nu)", ""),
    answer_key("fourier", "of that moment: diffusivity times time over the same length squared", ""),
}};

Json answer_shock(const Inputs& in) {
  const physics::ThermalShock found = physics::thermal_shock(in.number("biot"));
  return JsonObject{{"peak", found.peak}, {"fourier", found.fourier}};
}

}  // namespace

constinit const Calculation layered_elastic_calculation = {
    .name = "layered-elastic",
    .purpose = "stress of bonded layers after cooling",
    .equation = "sigma = E / (1 - nu) (mean strain + curvature z - alpha dT); curved layers after Lamé, interface by interface.",
    .source = "Timoshenko, Hsueh 2002, Lamé",
    .inputs = elastic_inputs,
    .outputs = elastic_outputs,
    .exactly_one_of = {},
    .answer = answer_elastic};

constinit const Calculation thermal_shock_calculation = {
    .name = "thermal-shock",
    .purpose = "highest surface stress of a suddenly cooled plate",
    .equation = "sum C_n exp(-d_n^2 Fo) (sin d_n / d_n - cos d_n), d tan d = Bi, C_n = 4 sin d / (2 d + sin 2 d).",
    .source = "Fourier; Incropera",
    .inputs = shock_inputs,
    .outputs = shock_outputs,
    .exactly_one_of = {},
    .answer = answer_shock};

}  // namespace heatwork::desk
