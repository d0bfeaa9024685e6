#include "firing/material_physics.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <stdexcept>

#include "firing/column.h"
#include "physics/trial_firing.h"
#include "trade/mistake.h"

namespace heatwork::firing {
namespace {

using trade::Material;

physics::TemperatureProperty between_25_and_600(const Material& material, const std::string& stem) {
  const double cold = property(material, stem + "_at_25_C");
  const double hot = property_or(material, stem + "_at_600_C", cold);
  return physics::TemperatureProperty::linear(25.0, cold, 600.0, hot);
}

physics::CrystallisationStep step_of(const Material& material, int number) {
  const std::string stem = fmt::format("crystallisation_{}_", number);
  physics::CrystallisationStep step;
  if (property_or(material, stem + "done", 0.0) >= 1.0) {
    step.complete_as_delivered = true;
    return step;
  }
  step.exponent = property(material, stem + "exponent");
  step.energy_kJ_per_mol = property(material, stem + "energy");
  step.rate_per_s = std::exp(property(material, stem + "rate"));
  return step;
}

}  // namespace

const trade::Estimate* known_property(const Material& material, const std::string& name) {
  const trade::Estimate* found = material.find(name);
  return found != nullptr && found->standing != trade::Standing::none_found ? found : nullptr;
}

double property(const Material& material, const std::string& name) {
  if (const trade::Estimate* known = known_property(material, name)) return known->value;
  throw trade::Mistake(
      material.place,
      fmt::format("material {} has no {}, which this firing needs; give it with value, range, standing and source", material.name, name));
}

double property_or(const Material& material, const std::string& name, double otherwise) {
  const trade::Estimate* known = known_property(material, name);
  return known != nullptr ? known->value : otherwise;
}

physics::TemperatureProperty specific_heat_of(const Material& material) {
  return between_25_and_600(material, "specific_heat");
}

physics::Layer layer_of(const Material& material, double thickness_m) {
  physics::Layer layer;
  layer.thickness_m = thickness_m;
  layer.density_kg_per_m3 = property(material, "density");
  layer.conductivity_W_per_mK = between_25_and_600(material, "conductivity");
  layer.specific_heat_J_per_kgK = specific_heat_of(material);
  return layer;
}

bool is_viscous(const Material& material) {
  return material.kind == trade::MaterialKind::powder;
}

bool is_crystallising(const Material& material) {
  return material.find("crystallisation_2_energy") != nullptr;
}

bool is_zirconia(const Material& material) {
  return material.find("sintering_energy") != nullptr;
}

physics::PowderProperties powder_of(const Material& material) {
  physics::PowderProperties powder;
  powder.vft = {property(material, "viscosity_A"), property(material, "viscosity_B"), property(material, "viscosity_T0")};
  powder.crystal_factor = property(material, "crystal_factor");
  powder.surface_tension_N_per_m = property(material, "surface_tension");
  powder.particle_radius_um = property(material, "particle_radius");
  powder.shape_factor = property(material, "shape_factor");
  powder.start_relative_density = property(material, "start_relative_density");
  powder.coarse_share = property(material, "coarse_share");
  powder.coarse_start_radius_um = property(material, "coarse_radius");
  powder.layer_mm = property(material, "levelling_thickness");
  return powder;
}

physics::CrystallisationProperties crystallisation_of(const Material& material) {
  physics::CrystallisationProperties properties;
  properties.steps = {step_of(material, 1), step_of(material, 2)};
  physics::OverFiring& over = properties.over_firing;
  over.reversal_C = property(material, "reversal_from");
  over.liquidus_C = property(material, "reversal_to");
  over.reversal_rate_per_s = property(material, "reversal_rate");
  over.start_diameter_um = property(material, "crystal_start_diameter");
  over.coarsening_energy_kJ_per_mol = property(material, "coarsening_energy");
  over.coarsening_rate_um3_per_s = std::exp(property(material, "coarsening_rate"));
  return properties;
}

physics::ZirconiaProperties zirconia_of(const Material& material) {
  physics::ZirconiaProperties properties;
  physics::MasterCurve& curve = properties.curve;
  curve.energy_kJ_per_mol = property(material, "sintering_energy");
  curve.green_density = property(material, "start_relative_density");
  curve.a = property(material, "sintering_place");
  curve.b = property(material, "sintering_width");
  curve.nu = property(material, "sintering_shape");
  curve.cap = property(material, "sintered_density");
  properties.grain.energy_kJ_per_mol = property(material, "grain_energy");
  properties.grain.rate_per_s = std::exp(property(material, "grain_rate"));
  properties.grain.start_um = property(material, "grain_start");
  return properties;
}

SealingRange sealing_range_of(const physics::PowderProperties& powder) {
  const double factor = std::log10(powder.crystal_factor);
  const auto at = [&](double log10_effective) {
    return physics::temperature_of_log10_viscosity_C(powder.vft, log10_effective - factor) + physics::zero_celsius_K;
  };
  return {at(7.5), at(6.5)};
}

physics::PowderState as_nominally_fired(const Material& material, const physics::PowderProperties& powder) {
  const physics::PieceHistory nominal = physics::nominal_firing(property(material, "nominal_temperature"));
  const double start_K = nominal.temperatures_K[0], top_s = nominal.times_s[1], end_s = nominal.times_s[2];
  const double rate_K_per_s = (nominal.temperatures_K[1] - start_K) / top_s;
  constexpr double vacuum_K = 500.0 + physics::zero_celsius_K;
  constexpr double air_Pa = 101325.0, vacuum_Pa = 5000.0;
  const double pumped_s = (vacuum_K - start_K) / rate_K_per_s;
  const std::array<double, 6> times = {0.0, pumped_s, pumped_s + 1.0, top_s, top_s + 1.0, end_s};
  const std::vector<double> temperatures = read_off(nominal.times_s, nominal.temperatures_K, times);
  const std::array<double, 6> pressures = {air_Pa, air_Pa, vacuum_Pa, vacuum_Pa, air_Pa, air_Pa};
  physics::PowderState state = physics::start_powder(powder);
  physics::advance_powder(powder, state, times, temperatures, pressures);
  return state;
}

}  // namespace heatwork::firing
