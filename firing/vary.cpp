#include "firing/vary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>
#include <stdexcept>

#include "firing/calibrated_range.h"
#include "firing/material_physics.h"
#include "physics/arrhenius.h"
#include "physics/viscosity.h"

namespace heatwork::firing {
namespace {

using trade::DecidingInput;
using trade::InputOf;

/// Properties of a material that change temperatures and drying; all others change what temperatures do to it.
constexpr std::array<std::string_view, 7> thermal{"emissivity",    "conductivity",        "specific_heat", "powder_conductivity_factor",
                                                  "water_content", "fine_grain_diameter", "moist_strength"};
/// Heated at this rate the published anchors of crystallisation were found. [K/s] source: computed-here
constexpr double anchor_rate_K_per_s = 10.0 / 60.0;

bool is_thermal(const std::string& property) {
  return std::find(thermal.begin(), thermal.end(), property) != thermal.end();
}

/// The properties a material's file carries for an input: some are given at two temperatures.
std::vector<std::string> properties_of(const std::string& input) {
  if (input == "conductivity" || input == "specific_heat") return {input + "_at_25_C", input + "_at_600_C"};
  return {input};
}

double towards(const trade::Estimate& estimate, double share) {
  return estimate.value + std::abs(share) * ((share < 0 ? estimate.low : estimate.high) - estimate.value);
}

/// The rate that keeps the greatest rate of the step at its published temperature while the energy changes.
void keep_anchor(trade::Material& material, double energy_before) {
  const auto energy = material.properties.find("crystallisation_2_energy");
  const auto rate = material.properties.find("crystallisation_2_rate");
  if (rate == material.properties.end()) return;
  physics::CrystallisationStep step;
  step.exponent = property(material, "crystallisation_2_exponent");
  step.energy_kJ_per_mol = energy_before;
  step.rate_per_s = std::exp(rate->second.value);
  const double anchor_K = physics::anchor_of_rate_K(step, anchor_rate_K_per_s);
  rate->second.value = std::log(physics::rate_from_anchor_per_s(energy->second.value, anchor_K, anchor_rate_K_per_s));
}

/// A material of the lab's own trial is known better in the furnace of the trial than elsewhere.
bool vary_calibrated(trade::Material& material, double share, const trade::ResolvedFiring& request, double unchecked_display_K) {
  const double within_K = calibrated_within_K(material, request.furnace, request.tray, unchecked_display_K);
  material.properties.at("viscosity_A").value += share * decades_for_K(material, within_K);
  return true;
}

/// The glass's law with another transition and the same viscosity at the nominal temperature.
bool vary_transition(trade::Material& material, double share) {
  const auto transition = material.properties.find("glass_transition");
  const trade::Estimate* nominal = material.find("nominal_temperature");
  if (transition == material.properties.end() || nominal == nullptr || !is_viscous(material)) return false;
  const double to_C = towards(transition->second, share);
  if (to_C == transition->second.value) return false;
  const physics::Vft before = powder_of(material).vft;
  constexpr double transition_log10_Pa_s = 12;
  const physics::Vft after = physics::vft_through_two_points(before.A, {to_C, transition_log10_Pa_s},
                                                             {nominal->value, physics::log10_viscosity(before, nominal->value)});
  transition->second.value = to_C;
  material.properties.at("viscosity_B").value = after.B_K;
  material.properties.at("viscosity_T0").value = after.T0_C;
  return true;
}

bool vary_material(Ingredients& ingredients, const DecidingInput& input, const std::string& name, double share,
                   const trade::ResolvedFiring& request, double unchecked_display_K) {
  trade::Material& material = ingredients.materials.at(name);
  if (input.name == "viscosity_A" && material.calibrated) return vary_calibrated(material, share, request, unchecked_display_K);
  if (input.name == "glass_transition") return vary_transition(material, share);
  bool changed = false;
  for (const std::string& name_of_property : properties_of(input.name)) {
    const auto found = material.properties.find(name_of_property);
    if (found == material.properties.end() || found->second.standing == trade::Standing::none_found) continue;
    const double before = found->second.value;
    found->second.value = towards(found->second, share);
    changed = changed || found->second.value != before;
    if (input.name == "crystallisation_2_energy") keep_anchor(material, before);
  }
  return changed;
}

bool vary_display(Ingredients& ingredients, const DecidingInput& input, double share, const trade::ResolvedFiring& request,
                  double unchecked_display_K) {
  const double end = share < 0 ? -input.low : input.high;
  const auto& display = request.furnace.display_error;
  const double range_K = display ? end * display->standard_uncertainty.value.si() : unchecked_display_K;
  ingredients.conditions.display_error_K += share * range_K;
  return range_K > 0;
}

bool scale(double& value, double factor) {
  const double before = value;
  value *= factor;
  return value != before;
}

/// Inputs of furnace and load that are scaled by a percentage.
double* scaled_by(Ingredients& ingredients, const std::string& name) {
  if (name == "heating_gain") return &ingredients.conditions.gain_K_per_s;
  if (name == "pump_time_constant") return &ingredients.conditions.pump_time_constant_s;
  if (name == "pump_ultimate" || name == "pump_ultimate_by_dial") return &ingredients.conditions.pump_ultimate_Pa;
  if (name == "leak") return &ingredients.conditions.leak_Pa_per_s;
  if (name == "tray_mass") return &ingredients.tray_kg;
  if (name == "support_contact") return &ingredients.support_contact;
  if (name == "drying_view") return &ingredients.open_view;
  if (name == "air_film") return &ingredients.air_film;
  return nullptr;
}

/// How sure a check of the furnace is of an input; nothing where none decides it.
std::optional<double> checked_u(const trade::FurnaceKnown& known, const std::string& name) {
  const auto si = [](const auto& uncertainty) { return uncertainty ? std::optional<double>(uncertainty->si()) : std::nullopt; };
  if (name == "heating_gain") return si(known.gain_u);
  if (name == "pump_time_constant") return si(known.pump_time_constant_u);
  if (name == "pump_ultimate" || name == "pump_ultimate_by_dial") return si(known.ultimate_u);
  if (name == "leak") return si(known.leak_u);
  return std::nullopt;
}

/// Taken to twice the standard uncertainty of its check; a range that would end below nothing is cut.
bool vary_checked(Ingredients& ingredients, const std::string& name, double share, double uncertainty, const trade::Furnace& furnace) {
  constexpr double covered = 2, least_share = 0.05;
  double& value = *scaled_by(ingredients, name);
  const double before = value;
  // The gain is known at nominal mains and stands here at the present ones.
  const double scale = name == "heating_gain" ? before / furnace.heating.gain.value.si() : 1;
  const double least = name == "leak" ? 0 : least_share * before;
  value = std::max(least, before + share * covered * scale * uncertainty);
  ingredients.cut = value != before + share * covered * scale * uncertainty;
  return value != before;
}

bool thicken(std::vector<trade::Piece>& pieces, double factor) {
  bool changed = false;
  for (trade::Piece& piece : pieces) {
    for (trade::Section& section : piece.sections) {
      for (trade::Layer& layer : section.layers) {
        if (!layer.green) continue;
        layer.thickness.value = quantity::Length::si(factor * layer.thickness.value.si());
        changed = true;
      }
    }
  }
  return changed;
}

}  // namespace

Reach reach_of(const DecidingInput& input) {
  const auto of_drying = [](const std::string& aspect) { return aspect == "water" || aspect == "burst"; };
  if (std::all_of(input.aspects.begin(), input.aspects.end(), of_drying)) return Reach::drying;
  if (input.name == "pump_time_constant" || input.name == "leak" || input.name.starts_with("pump_ultimate")) return Reach::pressure;
  if (input.of == InputOf::furnace || input.of == InputOf::load) return Reach::firing;
  if (input.of == InputOf::material && !is_thermal(input.name)) return Reach::kinetics;
  return Reach::both;
}

std::vector<std::string> subjects_of(const DecidingInput& input, const trade::ResolvedFiring& request) {
  if (input.of != InputOf::material) return {""};
  const Stock stock{request.materials, request.liquids, request.supports};
  std::set<std::string> outermost, deciding;
  for (const trade::Piece& piece : request.pieces) {
    for (const trade::Section& section : piece.sections) outermost.insert(section.layers.back().material.value);
    for (const Point& point : points_of(piece, stock)) {
      if (point.decides) deciding.insert(point.material->name);
    }
  }
  const bool anything_decides = !deciding.empty();
  const auto carries_none = [&](const std::string& name) {
    const std::vector<std::string> properties = properties_of(input.name);
    return std::none_of(properties.begin(), properties.end(),
                        [&](const std::string& property) { return request.materials.at(name).find(property) != nullptr; });
  };
  std::erase_if(outermost, carries_none);
  std::erase_if(deciding, carries_none);
  const bool of_surface = input.name == "emissivity" || !anything_decides;
  const std::set<std::string>& chosen = of_surface ? outermost : deciding;
  return {chosen.begin(), chosen.end()};
}

bool vary(Ingredients& ingredients, const DecidingInput& input, const std::string& material, double share,
          const trade::ResolvedFiring& request, double unchecked_display_K) {
  if (input.of == InputOf::material) return vary_material(ingredients, input, material, share, request, unchecked_display_K);
  if (input.name == "display_error") return vary_display(ingredients, input, share, request, unchecked_display_K);
  const bool absolute = request.furnace.pump.gauge.value == trade::GaugeKind::absolute;
  if (input.name == (absolute ? "pump_ultimate_by_dial" : "pump_ultimate")) return false;
  if (const auto uncertainty = checked_u(request.furnace_known, input.name))
    return vary_checked(ingredients, input.name, share, *uncertainty, request.furnace);
  const double change = std::abs(share) * (share < 0 ? input.low : input.high);
  if (double* value = scaled_by(ingredients, input.name)) return scale(*value, 1 + change / 100);
  if (input.name == "build_up_thickness") return thicken(ingredients.pieces, 1 + change / 100);
  if (input.name == "view_of_tray") {
    ingredients.more_view_of_tray = change;
    return true;
  }
  if (input.name == "room_humidity") {
    double& humidity = ingredients.conditions.room_humidity;
    const double before = humidity;
    humidity = std::clamp(before + change, 0.0, 1.0);
    ingredients.cut = humidity != before + change;
    return humidity != before;
  }
  throw std::logic_error(fmt::format("No firing knows the deciding input {}.", input.name));
}

physics::Surroundings varied_surroundings(const ChamberHistory& chamber, const Ingredients& ingredients) {
  physics::Surroundings around = surroundings_of(chamber);
  around.open_view *= ingredients.open_view;
  around.film_W_per_m2K *= ingredients.air_film;
  return around;
}

physics::Load varied_load(const FiringSetup& setup, const Stock& stock, const Ingredients& ingredients) {
  physics::Load load = load_of(setup, stock);
  for (physics::PieceBody& piece : load.pieces) {
    if (piece.support) piece.support->to_piece_W_per_K *= ingredients.support_contact;
    for (physics::SectionBody& section : piece.sections) {
      const double moved = std::clamp(ingredients.more_view_of_tray, -section.tray_share, section.chamber_share);
      section.chamber_share -= moved;
      section.tray_share += moved;
    }
  }
  return load;
}

}  // namespace heatwork::firing
