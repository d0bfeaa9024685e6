#include "physics/viscosity.h"

#include <cmath>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/materials.h"
#include "firing/material_physics.h"
#include "physics/heat_work.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 2> point_columns = {temperature_key("C", "temperature"),
                                                between_key("log10 Pa.s", "viscosity there", "log10 Pa s", -5, 20)};
constexpr std::array<Field, 6> viscosity_inputs = {{
    {.name = "points",
     .meaning = "three points of a measured curve, such as fixed points of a glass",
     .shape = Shape::rows,
     .required = false,
     .fewest = 3,
     .most = 3,
     .parts = point_columns},
    vft_A_key,
    vft_B_key,
    vft_T0_key,
    {.name = "class", .meaning = "a shipped class of material", .shape = Shape::word, .required = false, .names = viscous_classes},
    {.name = "temperatures_C",
     .meaning = "where the viscosity is wanted",
     .unit = "°C",
     .at_least = coldest_C,
     .at_most = hottest_C,
     .shape = Shape::numbers},
}};
constexpr std::array<Field, 6> viscosity_outputs = {{
    answer_key("A", "of log10(viscosity / Pa s) = A + B / (T - T0)", "log10 Pa s"),
    answer_key("B", "of the same law", "K"),
    answer_key("T0_C", "of the same law", "°C"),
    {.name = "log10_Pa_s",
     .meaning = "viscosity of the glass at each temperature; 14 where the law reaches it",
     .unit = "log10 Pa s",
     .shape = Shape::numbers},
    answer_key("crystal_factor", "by which the crystals of the class stiffen it; 1 for a glass given by itself", ""),
    {.name = "with_crystals_log10_Pa_s", .meaning = "the same with its crystals", .unit = "log10 Pa s", .shape = Shape::numbers},
}};
constexpr std::array<std::string_view, 1> points_keys = {"points"};
constexpr std::array<Together, 3> viscosity_choice = {points_keys, vft_keys, class_keys};

Json answer_viscosity(const Inputs& in) {
  physics::Vft vft;
  double crystal_factor = 1;
  if (in.has("points")) {
    const std::vector<double> temperatures = in.column("points", 0), viscosities = in.column("points", 1);
    std::array<physics::ViscosityPoint, 3> points;
    for (std::size_t i = 0; i < points.size(); ++i) points[i] = {temperatures[i], viscosities[i]};
    vft = physics::vft_through_three_points(points);
  } else if (in.has("class")) {
    const physics::PowderProperties powder = firing::powder_of(shipped_material(in.word("class")));
    vft = powder.vft;
    crystal_factor = powder.crystal_factor;
  } else {
    vft = vft_of(in);
  }
  std::vector<double> glass, whole;
  for (const double temperature_C : in.numbers("temperatures_C")) {
    glass.push_back(physics::log10_viscosity(vft, temperature_C));
    whole.push_back(std::min(glass.back() + std::log10(crystal_factor), physics::stiffest_log10_viscosity));
  }
  return JsonObject{{"A", vft.A},
                    {"B", vft.B_K},
                    {"T0_C", vft.T0_C},
                    {"log10_Pa_s", glass},
                    {"crystal_factor", crystal_factor},
                    {"with_crystals_log10_Pa_s", whole}};
}

constexpr std::array<Field, 7> heat_work_inputs = {{
    vft_A_key,
    vft_B_key,
    vft_T0_key,
    {.name = "class", .meaning = "a shipped class of material", .shape = Shape::word, .required = false, .names = viscous_classes},
    temperature_key("temperature_C", "of the one firing"),
    positive_key("time_s", "of the one firing", "s", longest_s),
    positive_key("other_time_s", "of the other firing", "s", longest_s),
}};
constexpr std::array<Field, 2> heat_work_outputs = {
    answer_key("other_temperature_C", "at which the other time does the same work", "°C"),
    answer_key("doubling_K", "rise at the first temperature that does the work of twice the time, by the local slope", "K")};
constexpr std::array<Together, 2> heat_work_choice = {vft_keys, class_keys};

Json answer_heat_work(const Inputs& in) {
  const physics::Vft vft = in.has("class") ? firing::powder_of(shipped_material(in.word("class"))).vft : vft_of(in);
  const double temperature_C = in.number("temperature_C");
  return JsonObject{{"other_temperature_C", physics::equal_heat_work_C(vft, temperature_C, in.number("time_s"), in.number("other_time_s"))},
                    {"doubling_K", physics::doubling_K(vft, temperature_C)}};
}

}  // namespace

constinit const Calculation viscosity_calculation = {
    .name = "viscosity",
    .purpose = "viscosity of a glass melt by temperature",
    .equation = "log10(eta / Pa s) = A + B / (T - T0), T and T0 in °C; never above 10^14 Pa s.",
    .source = "Vogel, Fulcher, Tammann",
    .inputs = viscosity_inputs,
    .outputs = viscosity_outputs,
    .exactly_one_of = viscosity_choice,
    .answer = answer_viscosity};

constinit const Calculation equal_heat_work_calculation = {
    .name = "equal-heat-work",
    .purpose = "temperature at which another time does as much",
    .equation = "time / eta(T) = other time / eta(other T); for twice the time about log10(2) (T - T0)^2 / B.",
    .source = "viscous flow, computed",
    .inputs = heat_work_inputs,
    .outputs = heat_work_outputs,
    .exactly_one_of = heat_work_choice,
    .answer = answer_heat_work};

}  // namespace heatwork::desk
