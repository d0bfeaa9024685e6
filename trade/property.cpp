#include "trade/property.h"

#include <array>

namespace heatwork::trade {
namespace {

constexpr std::array<PropertyName, 62> materials{{
    {"density", "kg/m3", 100, 25000, "of the pore-free solid"},
    {"conductivity_at_25_C", "W/(m K)", 0.01, 500, "of the dense solid; linear to 600 °C, constant beyond"},
    {"conductivity_at_600_C", "W/(m K)", 0.01, 500, "of the dense solid; constant above 600 °C"},
    {"specific_heat_at_25_C", "J/(kg K)", 50, 5000, "linear to 600 °C, constant beyond"},
    {"specific_heat_at_600_C", "J/(kg K)", 50, 5000, "constant above 600 °C"},
    {"emissivity", "", 0.01, 1, "total, of a thick piece in the infrared"},
    {"powder_conductivity_factor", "", 0.01, 1, "conductivity of the unfired build-up over that of the dense solid"},
    {"viscosity_A", "", -10, 5, "of log10(viscosity / Pa s) = A + B / (T - T0)"},
    {"viscosity_B", "K", 100, 50000, "of the same law"},
    {"viscosity_T0", "°C", -400, 900, "of the same law"},
    {"crystal_factor", "", 1, 100, "crystals multiply the viscosity of the glass by it"},
    {"crystal_volume", "", 0, 0.58, "share of crystals by volume"},
    {"glass_transition", "°C", 200, 900, "where the viscosity is 10^12 Pa s"},
    {"nominal_temperature", "°C", 300, 1200, "correct firing with a hold of one minute"},
    {"surface_tension", "N/m", 0.05, 1, "of the molten glass"},
    {"particle_radius", "µm", 0.1, 100, "of the powder, by specific surface"},
    {"shape_factor", "", 0.5, 10, "of angular grains, on the open-pore rate"},
    {"start_relative_density", "", 0.3, 0.75, "of the dried build-up, or of zirconia before sintering"},
    {"coarse_share", "", 0, 1, "of the pore volume at sealing"},
    {"coarse_radius", "µm", 1, 500, "of the coarse pores at sealing"},
    {"levelling_thickness", "mm", 0.001, 10, "of the layer whose surface levels"},
    {"water_content", "g/cm3", 0, 1, "water held by the wet build-up"},
    {"fine_grain_diameter", "µm", 0.1, 200, "that sets how easily vapour leaves the build-up"},
    {"moist_strength", "kPa", 0.1, 100000, "of the moist or just dry build-up against bursting"},
    {"grinding_roughness", "µm", 0, 100, "roughness Ra before the firing"},
    {"crystallisation_1_exponent", "", 0.5, 6, "of the first step"},
    {"crystallisation_1_energy", "kJ/mol", 10, 2000, "of the first step"},
    {"crystallisation_1_rate", "ln 1/s", -100, 400, "natural logarithm of the rate constant of the first step"},
    {"crystallisation_1_done", "", 0, 1, "1: complete as delivered"},
    {"crystallisation_2_exponent", "", 0.5, 6, "of the second step"},
    {"crystallisation_2_energy", "kJ/mol", 10, 2000, "of the second step"},
    {"crystallisation_2_rate", "ln 1/s", -100, 400, "natural logarithm of the rate constant of the second step"},
    {"crystal_start_diameter", "µm", 0.01, 10, "of the crystals when they have formed"},
    {"coarsening_energy", "kJ/mol", 10, 2000, "of crystal coarsening"},
    {"coarsening_rate", "ln µm3/s", -100, 400, "natural logarithm of the coarsening constant"},
    {"reversal_from", "°C", 300, 1200, "above it the wanted crystals begin to be lost"},
    {"reversal_to", "°C", 300, 1300, "where none are left in equilibrium"},
    {"reversal_rate", "1/s", 0, 1, "of that loss"},
    {"overfired_from", "°C", 300, 1800, "warning temperature of over-firing"},
    {"overfired_crystal", "µm", 0.01, 100, "warning diameter of the crystals"},
    {"sintering_energy", "kJ/mol", 10, 2000, "of the master sintering curve of zirconia"},
    {"sintering_place", "ln s/K", -200, 100, "where on ln Theta that curve rises"},
    {"sintering_width", "", 0.01, 100, "over how much of ln Theta it rises"},
    {"sintering_shape", "", 0.01, 100, "how unevenly it rises"},
    {"sintered_density", "", 0.9, 1, "relative density that it is not followed beyond"},
    {"sintering_from", "°C", 800, 1700, "below it no sintering makes zirconia dense, however long"},
    {"grain_start", "µm", 0.01, 10, "diameter of the grains before sintering"},
    {"grain_energy", "kJ/mol", 10, 2000, "of grain growth"},
    {"grain_rate", "ln µm4/s", -100, 400, "natural logarithm of the constant of grain growth"},
    {"expansion", "ppm/K", 0, 40, "mean, 25 to 500 °C"},
    {"youngs_modulus", "GPa", 1, 1000, "at 25 °C, taken for every temperature", true},
    {"poisson_ratio", "", 0, 0.49, "contraction across over stretch along, elastic", true},
    {"liquid_expansion_ratio", "", 1, 10, "expansion of the liquid glass over that of the solid", true},
    {"dilatometer_transition", "°C", 200, 1000, "glass transition as a dilatometer finds it at 5 K/min", true},
    {"relaxation_activation", "K", 10000, 500000, "activation energy of relaxation over the gas constant", true},
    {"relaxation_nonlinearity", "", 0, 1, "share of the clock of relaxation that follows the temperature, the rest the structure", true},
    {"leucite_share", "", 0, 1, "leucite by volume as delivered"},
    {"solidus", "°C", 300, 2000, "of an alloy"},
    {"self_diffusion_at_solidus", "µm2/s", 0.0001, 10, "of the atoms of an alloy, for the sag of a frame"},
    {"grain_diameter", "µm", 1, 10000, "of the cast alloy"},
    {"silver_share", "%", 0, 100, "of an alloy, by mass"},
    {"copper_share", "%", 0, 100, "of an alloy, by mass"},
}};

constexpr std::array<PropertyName, 9> alloys{{
    {"solidus", "°C", 300, 2000, "where it begins to melt"},
    {"liquidus", "°C", 300, 2000, "where the last of it has melted"},
    {"expansion", "ppm/K", 0, 40, "mean, 25 to 500 °C"},
    {"density", "kg/m3", 1000, 25000, "of the cast metal"},
    {"gold_share", "%", 0, 100, "by mass"},
    {"palladium_share", "%", 0, 100, "by mass"},
    {"silver_share", "%", 0, 100, "by mass; its vapour colours porcelain and stays in the chamber"},
    {"copper_share", "%", 0, 100, "by mass; its oxide is dark"},
    {"highest_firing", "°C", 300, 1800, "that a frame of it is fired at, below its solidus"},
}};

constexpr std::array<PropertyName, 3> liquids{{
    {"boiling_from", "°C", 20, 400, "lowest boiling temperature"},
    {"boiling_to", "°C", 20, 600, "highest boiling temperature"},
    {"organics", "%", 0, 100, "by mass, left when the water has gone"},
}};

}  // namespace

std::span<const PropertyName> material_properties() {
  return materials;
}
std::span<const PropertyName> alloy_properties() {
  return alloys;
}
std::span<const PropertyName> liquid_properties() {
  return liquids;
}

}  // namespace heatwork::trade
