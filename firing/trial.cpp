#include "firing/trial.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <vector>

#include "firing/fire.h"
#include "firing/material_physics.h"
#include "firing/piece_life.h"
#include "physics/equivalent_firing.h"
#include "physics/rising_root.h"
#include "physics/trial_firing.h"

namespace heatwork::firing {
namespace {

constexpr double settled_K = 0.005;
constexpr int most_rounds = 20;

physics::PowderClock clock_of(const trade::Material& material) {
  const physics::PowderProperties powder = powder_of(material);
  return {powder.vft, powder.crystal_factor, powder.surface_tension_N_per_m, powder.particle_radius_um};
}

/// Index of the point with the least heat-work of a material among those the firing is for.
std::size_t least_point(const PieceResult& piece, const std::string& material) {
  std::optional<std::size_t> least;
  for (std::size_t i = 0; i < piece.points.size(); ++i) {
    const PointResult& point = piece.points[i];
    if (!point.decides || !point.viscous || point.material != material) continue;
    if (!least || point.heat_work < piece.points[*least].heat_work) least = i;
  }
  if (!least) throw std::logic_error("a trial was asked of a material that is no green powder of the piece");
  return *least;
}

Rehearsal rehearsed(const trade::ResolvedFiring& firing) {
  RehearseOptions options;
  options.compare = false;
  Rehearsal rehearsal = rehearse(firing, options);
  if (rehearsal.impossible)
    throw std::domain_error(fmt::format("The firing {} cannot be run: {}", firing.firing.name, *rehearsal.impossible));
  return rehearsal;
}

/// What one point of a piece lives through.
physics::PieceHistory history_at(const Rehearsal& rehearsal, std::size_t piece, std::size_t point) {
  const trade::ResolvedFiring& request = rehearsal.request;
  const Stock stock{request.materials, request.liquids, request.supports};
  const FiringSetup setup = setup_of(request, request.pieces, request.tray.mass->value.si(), {});
  std::size_t first_section = 0;
  for (std::size_t i = 0; i < piece; ++i) first_section += request.pieces[i].sections.size();
  physics::LoadSolver& solver = solver_of_this_thread();
  solver.set_load(load_of(setup, stock));
  const physics::LoadHistory& history = solver.solve(surroundings_of(rehearsal.firing.chamber));
  const Point where = points_of(request.pieces[piece], stock).at(point);
  const physics::SectionHistory& section = history.sections.at(first_section + static_cast<std::size_t>(where.section));
  const std::size_t node = node_of(section, where);
  physics::PieceHistory lived{history.time_s, {}};
  for (std::size_t row = 0; row < history.time_s.size(); ++row) lived.temperatures_K.push_back(section.node_at(row, node));
  return lived;
}

/// Where the glass, in a nominal firing, does the work wanted. [C]
double nominal_C_of(const physics::PowderClock& glass, double wanted, double near_C) {
  const auto excess = [&](double nominal_C) {
    return std::log(physics::deciding_quantity(glass, physics::nominal_firing(nominal_C)) / wanted);
  };
  constexpr double lowest_C = 460.0, highest_C = 1200.0, usual_slope_per_K = 0.028, resolution_K = 1e-5;
  const physics::RisingRoot nominal_C = physics::rising_root(excess, {lowest_C, highest_C, near_C, usual_slope_per_K, resolution_K});
  if (!nominal_C.within()) throw std::domain_error("the glass of this trial fires well below 460 or above 1200 °C, which is not modelled");
  return nominal_C.x;
}

physics::TrialGlass glass_that_explains(const Trial& trial, const physics::PowderClock& of_class, double nominal_C, double transition_C,
                                        const physics::PieceHistory& lived) {
  try {
    return physics::glass_of_trial(of_class, nominal_C, transition_C, lived, trial.degree_K);
  } catch (const std::domain_error& why) {
    throw std::domain_error(fmt::format("The trial {} tells no glass near {}: {}.", trial.firing.firing.name, trial.material, why.what()));
  }
}

PointResult without_traces(PointResult point) {
  point.porosity_trace_percent.clear();
  point.sealed_trace.clear();
  point.rounding_trace_um.clear();
  return point;
}

}  // namespace

trade::Material with_glass(trade::Material material, const physics::Vft& vft) {
  material.properties.at("viscosity_A").value = vft.A;
  material.properties.at("viscosity_B").value = vft.B_K;
  material.properties.at("viscosity_T0").value = vft.T0_C;
  return material;
}

TrialFound read_trial(const Trial& trial) {
  if (!trial.firing.tray.mass)
    throw std::domain_error(
        fmt::format("The mass of tray {} is not given, so nobody can tell how warm the piece became; weigh it and write "
                    "its mass into the tray's file.",
                    trial.firing.tray.name));
  const trade::Material& material = trial.firing.materials.at(trial.material);
  const physics::PowderClock of_class = clock_of(material);
  const double nominal_C = property(material, "nominal_temperature");
  TrialFound found;
  found.glass_transition_C = trial.glass_transition_C ? *trial.glass_transition_C : property(material, "glass_transition");
  found.wanted = physics::deciding_quantity(of_class, physics::nominal_firing(nominal_C));
  trade::ResolvedFiring firing = trial.firing;
  found.vft = of_class.vft;
  for (int round = 0; round < most_rounds; ++round) {
    const Rehearsal rehearsal = rehearsed(firing);
    const PieceResult& piece = rehearsal.firing.pieces.at(trial.piece);
    const std::size_t point = least_point(piece, trial.material);
    found.point = without_traces(piece.points[point]);
    found.section = piece.sections[static_cast<std::size_t>(found.point.section)].name;
    const physics::TrialGlass glass =
        glass_that_explains(trial, of_class, nominal_C, found.glass_transition_C, history_at(rehearsal, trial.piece, point));
    const bool settled = round > 0 && std::abs(glass.shift_K - found.shift_K) < settled_K;
    found.vft = glass.vft;
    found.shift_K = glass.shift_K;
    firing.materials.at(trial.material) = with_glass(material, found.vft);
    if (!settled) continue;
    found.nominal_C = nominal_C_of(clock_of(firing.materials.at(trial.material)), found.wanted, nominal_C + found.shift_K);
    return found;
  }
  throw std::domain_error(
      "The trial does not settle on one glass; fire a trial whose build-up has sealed well before the end of the hold.");
}

}  // namespace heatwork::firing
