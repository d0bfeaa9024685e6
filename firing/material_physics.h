// From a material's properties, as a lab writes them, to what the models take in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "physics/crystallisation.h"
#include "physics/layer.h"
#include "physics/levelling.h"
#include "physics/powder.h"
#include "physics/zirconia_sintering.h"
#include "trade/material.h"

namespace heatwork::firing {

/// A property whose value is known; nullptr where the material does not carry it, or none was found.
const trade::Estimate* known_property(const trade::Material& material, const std::string& name);
/// A property's number in the unit of trade/property.h. Errors: trade::Mistake naming material and property, with the user's place.
double property(const trade::Material& material, const std::string& name);
/// The same, or a stated value where the material does not carry it.
double property_or(const trade::Material& material, const std::string& name, double otherwise);

/// A layer of the dense material. [SI units]
physics::Layer layer_of(const trade::Material& material, double thickness_m);
/// Specific heat between 25 and 600 °C. [J/(kg K)]
physics::TemperatureProperty specific_heat_of(const trade::Material& material);

/// True where the material sinters and levels as a viscous powder (powders and glazes).
bool is_viscous(const trade::Material& material);
/// True where the material crystallises in the furnace.
bool is_crystallising(const trade::Material& material);
/// True where the material is zirconia whose sintering is known.
bool is_zirconia(const trade::Material& material);

physics::PowderProperties powder_of(const trade::Material& material);
physics::CrystallisationProperties crystallisation_of(const trade::Material& material);
physics::ZirconiaProperties zirconia_of(const trade::Material& material);

/// Temperatures between which a build-up turns from powder into glass, for its conductivity: 10^7.5 to 10^6.5 Pa s (assumed). [K]
struct SealingRange {
  double from_K = 0;
  double to_K = 0;
};
SealingRange sealing_range_of(const physics::PowderProperties& powder);

/// The state of a layer fired before, where its own firings are not known: after the class's nominal firing
/// (450 °C, 55 K/min, nominal temperature, 60 s, vacuum from 500 °C to the top). Assumed, and the rehearsal says so.
physics::PowderState as_nominally_fired(const trade::Material& material, const physics::PowderProperties& powder);

}  // namespace heatwork::firing
