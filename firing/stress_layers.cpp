#include "firing/stress_layers.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <stdexcept>
#include <string_view>

#include "firing/material_physics.h"
#include "trade/relaxation.h"

namespace heatwork::firing {
namespace {

constexpr double GPa = 1e9, ppm = 1e-6;
/// Thickest outer film that is left out where its properties are not known: it bears no more than some hundredths of a section's force.
/// Standing: assumed. [m]
constexpr double film_m = 0.1e-3;

constexpr std::array<std::string_view, 3> of_every_layer{"youngs_modulus", "poisson_ratio", "expansion"};
constexpr std::array<std::string_view, 4> of_a_glass{"liquid_expansion_ratio", "dilatometer_transition", "relaxation_activation",
                                                     "relaxation_nonlinearity"};

/// What a material lacks for the stress of its layer, one sentence; empty where nothing.
std::string lacks(const trade::Material& material) {
  const auto none = [&](std::string_view property) { return known_property(material, std::string(property)) == nullptr; };
  const auto says = [&](std::string_view property) {
    return fmt::format("Material {} has no {}, which the stress of its layer needs; give it with value, range, standing and source.",
                       material.name, property);
  };
  for (const std::string_view property : of_every_layer)
    if (none(property)) return says(property);
  if (!is_glass(material)) return {};
  for (const std::string_view property : of_a_glass)
    if (none(property)) return says(property);
  if (material.relaxation.empty())
    return fmt::format("Material {} names no relaxation, which the stress of its layer needs; name one of {}.", material.name,
                       fmt::join(trade::relaxation_names(), ", "));
  return {};
}

/// Solid where it is dense; a build-up becomes as thick as the load's own layer: mass and area are kept.
double dense_m(const trade::Layer& layer, const trade::Material& material) {
  return layer.thickness.value.si() * (layer.green ? property(material, "start_relative_density") : 1.0);
}

std::vector<physics::RelaxationTerm> terms_of(const trade::Relaxation::Terms& pairs) {
  std::vector<physics::RelaxationTerm> terms;
  for (const auto& [weight, time_s] : pairs) terms.push_back({weight, time_s});
  return terms;
}

double transition_of_K(const trade::Material& material) {
  return property(material, "dilatometer_transition") + physics::zero_celsius_K;
}

/// Its clock set so that cooled at the dilatometer's rate it freezes at its own transition. Throws std::domain_error.
physics::StressGlass glass_of(const trade::Material& material, Clocks clocks) {
  const trade::Relaxation* spectrum = trade::relaxation(material.relaxation);
  if (spectrum == nullptr) throw std::logic_error("a material names a relaxation that does not ship");
  physics::StressGlass glass;
  glass.relaxing.activation_K = property(material, "relaxation_activation");
  glass.relaxing.nonlinearity = property(material, "relaxation_nonlinearity");
  glass.relaxing.structure = terms_of(spectrum->structure);
  glass.shear = terms_of(spectrum->shear);
  glass.liquid_expansion_per_K = property(material, "liquid_expansion_ratio") * property(material, "expansion") * ppm;
  if (clocks == Clocks::set)
    glass.relaxing.reference_K =
        physics::reference_of_transition_K(glass.relaxing, transition_of_K(material), physics::GlassRanges{}.dilatometer_K_per_s);
  return glass;
}

physics::StressLayer bonded_layer(const trade::Layer& layer, const trade::Material& material, Clocks clocks) {
  physics::StressLayer bonded;
  bonded.heat = layer_of(material, dense_m(layer, material));
  bonded.youngs_Pa = property(material, "youngs_modulus") * GPa;
  bonded.poisson = property(material, "poisson_ratio");
  bonded.expansion_per_K = physics::TemperatureProperty::constant(property(material, "expansion") * ppm);
  if (is_glass(material)) bonded.glass = glass_of(material, clocks);
  return bonded;
}

/// How many layers are followed: outer films whose properties are not known are left out while another glass is left.
std::size_t followed(const trade::Section& section, const std::vector<const trade::Material*>& materials, std::string& left_out) {
  std::size_t count = materials.size();
  const auto glasses = [&] {
    std::size_t found = 0;
    for (std::size_t i = 0; i < count; ++i) found += is_glass(*materials[i]) ? 1 : 0;
    return found;
  };
  while (count > 1 && is_glass(*materials[count - 1]) && glasses() > 1 && !lacks(*materials[count - 1]).empty() &&
         dense_m(section.layers[count - 1], *materials[count - 1]) <= film_m) {
    --count;
    left_out =
        fmt::format("The outer film of {} is left out of the stress, for not all of its properties are known.", materials[count]->name);
  }
  return count;
}

/// The thickest glass, of two alike the outer one; as many as there are layers where none is a glass.
std::size_t judged_glass(const std::vector<physics::StressLayer>& layers) {
  std::size_t best = layers.size();
  for (std::size_t i = 0; i < layers.size(); ++i)
    if (layers[i].glass && (best == layers.size() || layers[i].heat.thickness_m >= layers[best].heat.thickness_m)) best = i;
  return best;
}

std::size_t partner_of(const std::vector<physics::StressLayer>& layers, std::size_t glass) {
  for (std::size_t i = glass; i-- > 0;)
    if (!layers[i].glass) return i;
  for (std::size_t i = glass + 1; i < layers.size(); ++i)
    if (!layers[i].glass) return i;
  return glass > 0 ? glass - 1 : layers.size() > 1 ? 1 : 0;
}

const trade::Estimate& estimate_of(const trade::Material& material, const std::string& name) {
  return *known_property(material, name);
}

physics::InputRange range_of(const trade::Estimate& estimate, double times = 1, double plus = 0) {
  return {times * estimate.low + plus, times * estimate.high + plus};
}

/// The expansion of the pair: less of the glass does what more of its partner does, and the two are not known from each other.
physics::InputRange expansion_of_pair(const trade::Estimate& glass, const trade::Estimate* partner) {
  const auto more = [&](double own, double others) { return ppm * (partner == nullptr ? own : std::hypot(own, others)); };
  const double partner_above = partner == nullptr ? 0 : partner->high - partner->value;
  const double partner_below = partner == nullptr ? 0 : partner->value - partner->low;
  return {-more(glass.value - glass.low, partner_above), more(glass.high - glass.value, partner_below)};
}

void add_ranges(StressLayers& section, const trade::Material& glass, const trade::Material& partner) {
  const bool paired = section.partner != section.glass;
  section.ranges.layer = section.glass;
  section.ranges.expansion_per_K =
      expansion_of_pair(estimate_of(glass, "expansion"), paired ? &estimate_of(partner, "expansion") : nullptr);
  section.ranges.liquid_ratio = range_of(estimate_of(glass, "liquid_expansion_ratio"));
  section.ranges.activation_K = range_of(estimate_of(glass, "relaxation_activation"));
  section.ranges.transition_K = range_of(estimate_of(glass, "dilatometer_transition"), 1, physics::zero_celsius_K);
  if (paired) section.mismatch_per_K = ppm * (property(partner, "expansion") - property(glass, "expansion"));
}

StressLayers without(std::string why) {
  StressLayers none;
  none.missing = std::move(why);
  return none;
}

}  // namespace

bool is_glass(const trade::Material& material) {
  return is_viscous(material) || !material.relaxation.empty() || material.find("liquid_expansion_ratio") != nullptr;
}

StressLayers stress_layers(const trade::Section& section, const Stock& stock, Clocks clocks) {
  std::vector<const trade::Material*> materials;
  for (const trade::Layer& layer : section.layers) materials.push_back(&material_of(layer, stock));
  StressLayers bonded;
  const std::size_t count = followed(section, materials, bonded.left_out);
  bool any_glass = false;
  for (std::size_t i = 0; i < count; ++i) any_glass = any_glass || is_glass(*materials[i]);
  if (!any_glass) return without("No layer of it relaxes as a glass: what its elastic layers keep from earlier firings is not known.");
  for (std::size_t i = 0; i < count; ++i)
    if (std::string lack = lacks(*materials[i]); !lack.empty()) return without(std::move(lack));
  for (std::size_t i = 0; i < count; ++i) {
    try {
      bonded.layers.push_back(bonded_layer(section.layers[i], *materials[i], clocks));
    } catch (const std::domain_error& impossible) {
      return without(fmt::format("The glass of material {} cannot be followed: {}", materials[i]->name, impossible.what()));
    }
    bonded.materials.push_back(materials[i]->name);
    bonded.transition_K.push_back(bonded.layers.back().glass ? transition_of_K(*materials[i]) : 0.0);
  }
  bonded.glass = judged_glass(bonded.layers);
  bonded.partner = partner_of(bonded.layers, bonded.glass);
  add_ranges(bonded, *materials[bonded.glass], *materials[bonded.partner]);
  return bonded;
}

}  // namespace heatwork::firing
