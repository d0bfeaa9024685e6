#include "firing/stress_in_rehearsal.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

#include "firing/inputs_hash.h"
#include "firing/side_by_side.h"

namespace heatwork::firing {
namespace {

/// A way to cool otherwise, and for which section of which piece it is tried.
struct Tried {
  std::size_t piece = 0, section = 0;
  StressLever lever;
  trade::Program program;
};

double in_steps_below(double value, double step) {
  return step > 0 ? step * std::floor(value / step + 1e-9) : value;
}

/// Shut, at half the rate, down to 100 K below the transition. Nothing where the panel has no such stage or the glass is passed by nothing.
std::optional<Tried> slower(const trade::ResolvedFiring& request, const SectionStress& stress, double display_error_K) {
  const trade::FurnaceAbility& can = request.furnace.ability;
  if (can.cooling_stages.value < 1 || !(stress.cooling_K_per_s > 0)) return std::nullopt;
  Tried tried;
  tried.lever.what = StressLever::What::slower;
  tried.lever.rate_K_per_s = in_steps_below(0.5 * stress.cooling_K_per_s, can.rate_step.value.si());
  if (!(tried.lever.rate_K_per_s >= can.slowest_rate.value.si()) || !(tried.lever.rate_K_per_s > 0)) return std::nullopt;
  tried.lever.to_C = in_steps_below(stress.glass_transition_C - 100 + display_error_K, can.temperature_step.value.si());
  tried.program = request.program;
  trade::CoolingStage stage;
  stage.to.value = quantity::Temperature::celsius(tried.lever.to_C);
  stage.rate = trade::Given<quantity::HeatingRate>{quantity::HeatingRate::si(tried.lever.rate_K_per_s), "", {}};
  stage.opening.value = quantity::Fraction::si(0);
  tried.program.cooling = {stage};
  auto& opening = tried.program.opening_temperature;
  if (opening && opening->value.celsius() > tried.lever.to_C) opening->value = quantity::Temperature::celsius(tried.lever.to_C);
  return tried;
}

/// Shut down to 50 K below the transition, then open. Nothing where it opens there or below already.
std::optional<Tried> opened_lower(const trade::ResolvedFiring& request, const SectionStress& stress, double display_error_K) {
  if (!stress.opened_at_C || *stress.opened_at_C < stress.glass_transition_C - 45 || !request.program.opening_temperature)
    return std::nullopt;
  Tried tried;
  tried.lever.what = StressLever::What::opened_lower;
  tried.lever.to_C = in_steps_below(stress.glass_transition_C - 50 + display_error_K, request.furnace.ability.temperature_step.value.si());
  if (tried.lever.to_C >= request.program.opening_temperature->value.celsius()) return std::nullopt;
  tried.program = request.program;
  const auto at = quantity::Temperature::celsius(tried.lever.to_C);
  for (trade::CoolingStage& stage : tried.program.cooling) {
    stage.opening.value = quantity::Fraction::si(0);
    if (stage.to.value < at) stage.to.value = at;
  }
  tried.program.opening_temperature->value = at;
  return tried;
}

/// The section of a piece with the most tension in its glass; nothing where none was followed from a liquid.
std::optional<std::size_t> worst_section(const PieceResult& piece, const std::vector<CooledSection>& cooled) {
  std::optional<std::size_t> worst;
  const auto highest = [&](std::size_t s) {
    const SectionStress& one = piece.stress[s];
    return one.forms[one.worst].layers[one.glass].highest_hoop_Pa;
  };
  for (std::size_t s = 0; s < piece.stress.size(); ++s)
    if (!piece.stress[s].forms.empty() && cooled[s].carried == nullptr && (!worst || highest(s) > highest(*worst))) worst = s;
  return worst;
}

std::vector<Tried> levers_to_try(const trade::ResolvedFiring& request, const ChamberConditions& conditions, const CooledPieces& cooled,
                                 const FiringResult& result) {
  std::vector<Tried> all;
  for (std::size_t p = 0; p < result.pieces.size(); ++p) {
    const auto worst = worst_section(result.pieces[p], cooled[p]);
    if (!worst) continue;
    const SectionStress& stress = result.pieces[p].stress[*worst];
    for (auto&& make : {slower, opened_lower}) {
      std::optional<Tried> one = make(request, stress, conditions.display_error_K);
      if (!one) continue;
      one->piece = p;
      one->section = *worst;
      const physics::LayerCooling& glass = stress.forms[stress.worst].layers[stress.glass];
      one->lever.transient_before_Pa = glass.transient_highest_Pa;
      one->lever.residual_before_Pa = glass.highest_hoop_Pa;
      all.push_back(std::move(*one));
    }
  }
  return all;
}

/// The lever with what it does; nothing where the furnace cannot run it.
std::optional<StressLever> run_lever(const trade::ResolvedFiring& request, const ChamberConditions& conditions, const Tried& tried,
                                     const RehearseOptions& options, const SectionStress& stress) {
  const Stock stock{request.materials, request.liquids, request.supports};
  try {
    const ChamberHistory chamber = run_program(tried.program, request.furnace, conditions);
    const FiringSetup setup = setup_of(request, request.pieces, request.tray.mass->value.si(), options.start);
    physics::LoadSolver& solver = solver_of_this_thread();
    solver.set_load(load_of(setup, stock));
    const physics::LoadHistory& history = solver.solve(surroundings_of(chamber));
    std::size_t first = 0;
    for (std::size_t p = 0; p < tried.piece; ++p) first += request.pieces[p].sections.size();
    const trade::Piece& piece = request.pieces[tried.piece];
    const auto sections = std::span(history.sections).subspan(first, piece.sections.size());
    const auto cooled = cooled_sections(piece, stock, {sections, history.time_s, chamber}, nullptr);
    const CooledSection& one = cooled[tried.section];
    if (!one.not_computed.empty()) return std::nullopt;
    StressLever lever = tried.lever;
    const physics::LayerCooling glass = stress_in_form(one, one.forms[stress.worst])[stress.glass];
    lever.transient_after_Pa = glass.transient_highest_Pa;
    lever.residual_after_Pa = glass.highest_hoop_Pa;
    return lever;
  } catch (const std::domain_error&) {
    return std::nullopt;  // this furnace cannot run it: it is no lever
  }
}

/// Over the ranges of the materials, to each section.
void add_stress_bounds(const CooledPieces& cooled, const RehearseOptions& options, FiringResult& result) {
  for (std::size_t p = 0; p < cooled.size(); ++p)
    for (std::size_t s = 0; s < cooled[p].size(); ++s)
      add_bounds(
          cooled[p][s], options.workers, [&options] { options.go_on(); }, result.pieces[p].stress[s]);
}

/// What another cooling would do, to the section of each piece with the most tension.
void add_levers(const trade::ResolvedFiring& request, const ChamberConditions& conditions, const CooledPieces& cooled,
                const RehearseOptions& options, FiringResult& result) {
  const std::vector<Tried> tried = levers_to_try(request, conditions, cooled, result);
  std::vector<std::optional<StressLever>> found(tried.size());
  side_by_side(tried.size(), options.workers, [&](std::size_t i) {
    options.go_on();
    found[i] = run_lever(request, conditions, tried[i], options, result.pieces[tried[i].piece].stress[tried[i].section]);
  });
  for (std::size_t i = 0; i < tried.size(); ++i)
    if (found[i]) result.pieces[tried[i].piece].stress[tried[i].section].levers.push_back(*found[i]);
}

}  // namespace

CooledPieces add_stress(const FiringSetup& setup, const Stock& stock, const physics::LoadHistory& history, bool traces,
                        FiringResult& result) {
  CooledPieces all;
  std::size_t first = 0;
  for (std::size_t i = 0; i < setup.pieces.size(); ++i) {
    const std::size_t count = setup.pieces[i]->sections.size();
    const auto sections = std::span(history.sections).subspan(first, count);
    first += count;
    const PieceState* start = setup.start.empty() ? nullptr : &setup.start[i];
    all.push_back(cooled_sections(*setup.pieces[i], stock, {sections, history.time_s, result.chamber}, start));
    PieceResult& piece = result.pieces[i];
    piece.stress.clear();
    result.end[i].stress.clear();
    for (const CooledSection& cooled : all.back()) {
      SectionStressState left;
      piece.stress.push_back(stress_of(cooled, traces, &left));
      if (!left.forms.empty()) result.end[i].stress.push_back(std::move(left));
    }
  }
  return all;
}

void complete_stress(const ChamberConditions& conditions, const CooledPieces& cooled, const RehearseOptions& options,
                     Rehearsal& rehearsal) {
  StressCache* const cache = options.traces ? options.stress_cache : nullptr;
  FiringResult& result = rehearsal.firing;
  const std::string key = kept_under(rehearsal.inputs_hash, rehearsal.request);
  if (auto kept = cache != nullptr ? cache->find(key) : std::nullopt) {
    for (std::size_t p = 0; p < result.pieces.size(); ++p) result.pieces[p].stress = std::move((*kept)[p]);
    return;
  }
  add_stress_bounds(cooled, options, result);
  add_levers(rehearsal.request, conditions, cooled, options, result);
  if (cache == nullptr) return;
  std::vector<std::vector<SectionStress>> all;
  for (const PieceResult& piece : result.pieces) all.push_back(piece.stress);
  cache->keep(key, std::move(all));
}

}  // namespace heatwork::firing
