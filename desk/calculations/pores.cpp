#include "physics/pores.h"

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "physics/levelling.h"
#include "physics/sintering.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 2> cylinder_inputs = {
    between_key("relative_density_start", "of the powder, 1 is without pores", "", 0.2, 0.942),
    between_key("relative_density_end", "that is to be reached, not below the start", "", 0.2, 0.942)};
constexpr std::array<Field, 1> cylinder_outputs = {
    answer_key("reduced_time", "in units of eta R / gamma: viscosity, particle radius, surface tension; shape factor 1", "")};

Json answer_cylinder(const Inputs& in) {
  return JsonObject{
      {"reduced_time", physics::cylinder_sintering_reduced_time(in.number("relative_density_start"), in.number("relative_density_end"))}};
}

constexpr std::array<Field, 2> closure_inputs = {Field{.name = "porosity_start",
                                                       .meaning = "of the body with closed pores, without gas in them",
                                                       .at_least = 0,
                                                       .at_most = 0.99,
                                                       .above = true},
                                                 between_key("porosity_end", "that is to be reached, not above the start", "", 0, 0.99)};
constexpr std::array<Field, 1> closure_outputs = {
    answer_key("reduced_time", "in units of eta a0 / gamma: viscosity, pore radius at the start, surface tension", "")};

Json answer_closure(const Inputs& in) {
  return JsonObject{{"reduced_time", physics::pore_closure_reduced_time(in.number("porosity_start"), in.number("porosity_end"))}};
}

constexpr std::array<Field, 4> equilibrium_inputs = {positive_key("radius_um", "of the pore when it sealed", "µm", 1e5),
                                                     between_key("sealed_kPa", "pressure of the gas sealed in", "kPa", 0, 1e4),
                                                     between_key("chamber_kPa", "pressure around the body in the end", "kPa", 0, 1e4),
                                                     positive_key("surface_tension_N_per_m", "of the melt", "N/m", 10)};
constexpr std::array<Field, 1> equilibrium_outputs = {
    answer_key("volume_ratio", "share of its volume at sealing that the pore keeps in the end, at the temperature of sealing", "")};

Json answer_equilibrium(const Inputs& in) {
  return JsonObject{
      {"volume_ratio", physics::pore_equilibrium_volume_ratio(in.number("radius_um"), 1000 * in.number("sealed_kPa"),
                                                              1000 * in.number("chamber_kPa"), in.number("surface_tension_N_per_m"))}};
}

constexpr std::array<Field, 4> levelling_inputs = {
    positive_key("wavelength_um", "of the ripple", "µm", 1e6), positive_key("thickness_um", "of the film on its rigid base", "µm", 1e6),
    positive_key("viscosity_Pa_s", "of the melt", "Pa s", 1e20), positive_key("surface_tension_N_per_m", "of the melt", "N/m", 10)};
constexpr std::array<Field, 1> levelling_outputs = {
    answer_key("time_constant_s", "in which the ripple falls to 1/e, by surface tension alone", "s")};

Json answer_levelling(const Inputs& in) {
  return JsonObject{
      {"time_constant_s", physics::levelling_time_constant_s(in.number("wavelength_um"), in.number("thickness_um"),
                                                             in.number("viscosity_Pa_s"), in.number("surface_tension_N_per_m"))}};
}

}  // namespace

constinit const Calculation cylinder_sintering_calculation = {
    .name = "cylinder-sintering",
    .purpose = "time from one density to another, open pores",
    .equation = "cubic cell of cylinders, density = 3 pi x^2 - 8 sqrt(2) x^3; the first cell has the surface of the powder.",
    .source = "Scherer 1977",
    .inputs = cylinder_inputs,
    .outputs = cylinder_outputs,
    .exactly_one_of = {},
    .answer = answer_cylinder};

constinit const Calculation pore_closure_calculation = {.name = "pore-closure",
                                                        .purpose = "time from one closed porosity to another",
                                                        .equation = "da/dt = -(gamma / (2 eta)) / (1 - porosity), pores without gas.",
                                                        .source = "Mackenzie and Shuttleworth 1949",
                                                        .inputs = closure_inputs,
                                                        .outputs = closure_outputs,
                                                        .exactly_one_of = {},
                                                        .answer = answer_closure};

constinit const Calculation pore_equilibrium_calculation = {.name = "pore-equilibrium",
                                                            .purpose = "how far a pore with gas can shrink",
                                                            .equation = "p_sealed / s^3 = p_chamber + 2 gamma / (a s); the answer is s^3.",
                                                            .source = "Mackenzie and Shuttleworth 1949",
                                                            .inputs = equilibrium_inputs,
                                                            .outputs = equilibrium_outputs,
                                                            .exactly_one_of = {},
                                                            .answer = answer_equilibrium};

constinit const Calculation levelling_calculation = {
    .name = "levelling",
    .purpose = "how quickly a ripple of a glaze levels",
    .equation = "sine ripple of a viscous film of any thickness on a rigid base, without gravity.",
    .source = "Orchard 1962",
    .inputs = levelling_inputs,
    .outputs = levelling_outputs,
    .exactly_one_of = {},
    .answer = answer_levelling};

}  // namespace heatwork::desk
