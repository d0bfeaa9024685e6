#include <algorithm>
#include <iterator>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "desk/materials.h"
#include "firing/column.h"
#include "firing/material_physics.h"
#include "physics/layer.h"
#include "physics/powder.h"

namespace heatwork::desk {
namespace {

// The density of a build-up given by its own glass, where none is said; the same as that of the shipped porcelains.
constexpr double usual_start_density = 0.58;

constexpr std::array<Field, 2> pressure_columns = {between_key("s", "time", "s", -longest_s, longest_s),
                                                   between_key("kPa", "absolute pressure in the chamber", "kPa", 0, 1000)};
constexpr std::array<std::string_view, 2> sealing_words = {"smooth", "hard"};
constexpr std::array<Field, 15> sintering_inputs = {{
    {.name = "class", .meaning = "a shipped class of material", .shape = Shape::word, .required = false, .names = viscous_classes},
    vft_A_key,
    vft_B_key,
    vft_T0_key,
    optional_key(between_key("crystal_factor", "by which crystals stiffen the melt; 1 without crystals", "", 1, 1e4)),
    optional_key(between_key("surface_tension_N_per_m", "of the melt", "N/m", 0.01, 2)),
    optional_key(between_key("particle_radius_um", "of the powder, by its specific surface", "µm", 0.05, 1000)),
    optional_key(between_key("shape_factor", "of angular grains, on the rate while pores are open", "", 0.1, 10)),
    optional_key(between_key("coarse_share", "share of coarse pores in the void at sealing", "", 0, 1)),
    optional_key(between_key("coarse_start_radius_um", "of a coarse pore at sealing", "µm", 0.05, 1000)),
    optional_key(between_key("layer_mm", "thickness of the layer whose surface levels", "mm", 0.001, 100)),
    temperature_history_key("temperature_history", "of the powder, linear between points"),
    {.name = "pressure_history",
     .meaning = "of the chamber, linear between points; before its first and after its last point that pressure stays",
     .shape = Shape::rows,
     .rising = true,
     .parts = pressure_columns},
    {.name = "sealing",
     .meaning = "pores seal from 14 to 5 % porosity (smooth, taken where not given) or all at 10 % (hard)",
     .shape = Shape::word,
     .required = false,
     .words = sealing_words},
    optional_key(between_key("start_relative_density", "of the dry build-up; where not given that of the class, or 0.58 without one", "",
                             0.3, 0.85)),
}};
constexpr std::array<Field, 9> sintering_outputs = {{
    answer_key("porosity_percent", "at the end of the temperature history", "%"),
    answer_key("relative_density", "there; 1 is without pores", ""),
    answer_key("rounding_um", "length by which corners have rounded", "µm"),
    answer_key("levelling_exponent", "of the band of the grain, 25 µm: its height has fallen by exp(-exponent)", ""),
    answer_key("heat_work", "surface tension over particle radius, times the integral of dt / viscosity", ""),
    null_answer_key("sealed_at_C", "temperature when half of the pores had sealed", "°C"),
    answer_key("coarse_radius_um", "mean of the sealed coarse pores; at the start value while none is sealed", "µm"),
    answer_key("sealed_share", "of the pores, at the end", ""),
    answer_key("start_relative_density", "that was taken", ""),
}};
constexpr std::array<std::string_view, 10> own_powder_keys = {"A",
                                                              "B",
                                                              "T0_C",
                                                              "crystal_factor",
                                                              "surface_tension_N_per_m",
                                                              "particle_radius_um",
                                                              "shape_factor",
                                                              "coarse_share",
                                                              "coarse_start_radius_um",
                                                              "layer_mm"};
constexpr std::array<Together, 2> sintering_choice = {class_keys, own_powder_keys};

physics::PowderProperties powder_of(const Inputs& in) {
  physics::PowderProperties powder;
  if (in.has("class")) {
    powder = firing::powder_of(shipped_material(in.word("class")));
  } else {
    powder.vft = vft_of(in);
    powder.crystal_factor = in.number("crystal_factor");
    powder.surface_tension_N_per_m = in.number("surface_tension_N_per_m");
    powder.particle_radius_um = in.number("particle_radius_um");
    powder.shape_factor = in.number("shape_factor");
    powder.coarse_share = in.number("coarse_share");
    powder.coarse_start_radius_um = in.number("coarse_start_radius_um");
    powder.layer_mm = in.number("layer_mm");
    powder.start_relative_density = usual_start_density;
  }
  powder.start_relative_density = in.number_or("start_relative_density", powder.start_relative_density);
  powder.sealing = in.has("sealing") && in.word("sealing") == "hard" ? physics::Sealing::hard : physics::Sealing::smooth;
  return powder;
}

Json answer_sintering(const Inputs& in) {
  const physics::PowderProperties powder = powder_of(in);
  const std::vector<double> own_s = in.column("temperature_history", 0), own_K = kelvins(in.column("temperature_history", 1));
  const std::vector<double> pressure_s = in.column("pressure_history", 0), pressure_kPa = in.column("pressure_history", 1);
  std::vector<double> times_s;
  std::set_union(own_s.begin(), own_s.end(), pressure_s.begin(), pressure_s.end(), std::back_inserter(times_s));
  std::erase_if(times_s, [&](double time) { return time < own_s.front() || time > own_s.back(); });
  std::vector<double> temperatures_K, pressures_Pa;
  for (const double time : times_s) {
    temperatures_K.push_back(firing::value_at(own_s, own_K, time));
    pressures_Pa.push_back(1000 * firing::value_at(pressure_s, pressure_kPa, time));
  }
  physics::PowderState state = physics::start_powder(powder);
  physics::PowderTrace trace;
  physics::advance_powder(powder, state, times_s, temperatures_K, pressures_Pa, &trace);
  const double porosity = physics::powder_porosity(powder, state);
  const Json sealed_at = trace.half_sealed ? Json(trace.half_sealed->temperature_K - physics::zero_celsius_K) : Json();
  return JsonObject{{"porosity_percent", 100 * porosity},
                    {"relative_density", 1 - porosity},
                    {"rounding_um", state.rounding_um},
                    {"levelling_exponent", state.levelling_exponent},
                    {"heat_work", state.heat_work},
                    {"sealed_at_C", sealed_at},
                    {"coarse_radius_um", physics::powder_coarse_radius_um(powder, state)},
                    {"sealed_share", physics::powder_sealed_fraction(powder, state)},
                    {"start_relative_density", powder.start_relative_density}};
}

}  // namespace

constinit const Calculation sintering_calculation = {
    .name = "sintering",
    .purpose = "pores and gloss after a firing",
    .equation = "open pores by the cell of cylinders, sealing by slices with the gas of the chamber, closed pores with gas.",
    .source = "Scherer 1977, Mackenzie, Shuttleworth 1949",
    .inputs = sintering_inputs,
    .outputs = sintering_outputs,
    .exactly_one_of = sintering_choice,
    .answer = answer_sintering};

}  // namespace heatwork::desk
