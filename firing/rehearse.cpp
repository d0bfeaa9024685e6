#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <stdexcept>

#include "firing/comparison.h"
#include "firing/fire.h"
#include "firing/inputs_hash.h"
#include "firing/maker_runs.h"
#include "firing/moments.h"
#include "firing/rehearsal.h"
#include "firing/side_by_side.h"
#include "firing/stress_in_rehearsal.h"
#include "firing/variants.h"
#include "trade/mistake.h"

namespace heatwork::firing {
namespace {

/// Instruction, its program and a tray of known mass, or why the comparison cannot be made.
bool comparable(const trade::ResolvedFiring& request, Rehearsal& rehearsal) {
  if (!request.instruction || !request.instruction_program) return false;
  if (!request.instruction_tray || !request.instruction_tray->mass) {
    rehearsal.assumptions.emplace_back(
        "No tray of known mass stands for the maker's own: the comparison cannot be made; give a tray its mass.");
    return false;
  }
  return true;
}

void state_assumptions(const trade::ResolvedFiring& request, Rehearsal& rehearsal) {
  rehearsal.reference_tray = request.instruction_tray->name;
  auto& said = rehearsal.assumptions;
  said.emplace_back("True furnace: this furnace with a true display and no correction keyed in, nominal mains, no leak, warm and dry.");
  said.push_back(request.furnace.heating.gain_when_new && request.furnace.heating.loss_when_new
                     ? "Heating gain and loss as when new."
                     : "Heating gain and loss as measured: those of the new furnace are not known.");
  said.push_back(request.furnace.pump.time_constant_when_new ? "Pump as when new."
                                                             : "Pump as measured: its values when new are not known.");
  said.push_back(request.instruction_tray_is_lightest
                     ? fmt::format("The instruction names no tray: the lab's lightest of known mass, {}, stands for it.",
                                   request.instruction_tray->name)
                     : fmt::format("Tray {} as the instruction names it.", request.instruction_tray->name));
  said.emplace_back("Each piece alone in the middle of the tray; materials, altitude and room as in this firing.");
}

/// The chamber's history, or in `impossible` the sentence why the furnace cannot run the program.
std::optional<ChamberHistory> run_or_say(const trade::Program& program, const trade::Furnace& furnace, const ChamberConditions& conditions,
                                         std::optional<std::string>& impossible) {
  try {
    return run_program(program, furnace, conditions);
  } catch (const std::domain_error& why) {
    impossible = why.what();
    return std::nullopt;
  }
}

/// The maker's firing of one piece, from those kept where it is among them.
std::shared_ptr<MakerRun> maker_run(const trade::ResolvedFiring& request, std::size_t piece, const FiringSetup& alone, const Stock& stock,
                                    const ChamberHistory& chamber, const RehearseOptions& options) {
  std::string hash;
  if (options.maker_runs != nullptr) {
    hash = maker_hash(request, piece, alone.start.empty() ? nullptr : &alone.start.front());
    if (auto kept = options.maker_runs->find(hash)) return kept;
  }
  physics::LoadSolver& solver = solver_of_this_thread();
  solver.set_load(load_of(alone, stock));
  const physics::LoadHistory& history = solver.solve(surroundings_of(chamber));
  auto run = std::make_shared<MakerRun>(lived(alone, stock, chamber, history), history);
  if (options.maker_runs != nullptr) options.maker_runs->keep(hash, run);
  return run;
}

void compare_with_maker(const trade::ResolvedFiring& request, const Stock& stock, const RehearseOptions& options, Rehearsal& rehearsal,
                        NominalRun& nominal) {
  const ChamberConditions conditions = conditions_true(request.furnace, request.firing.chamber, ambient_Pa_of(request));
  std::optional<std::string> impossible;
  const std::optional<ChamberHistory> run = run_or_say(*request.instruction_program, request.furnace, conditions, impossible);
  if (!run) {
    rehearsal.assumptions.push_back("This furnace cannot run the maker's program, so nothing is compared with it: " + *impossible);
    return;
  }
  const ChamberHistory& chamber = *run;
  const ChamberMoment* begins = chamber.find(ChamberEvent::hold_begins);
  const ChamberMoment* ends = chamber.find(ChamberEvent::hold_ends);
  const double hold_s = begins != nullptr && ends != nullptr ? ends->time_s - begins->time_s : 0;
  const std::size_t pieces = request.pieces.size();
  rehearsal.reference.resize(pieces);
  nominal.maker_chamber = chamber;
  nominal.maker.resize(pieces);
  nominal.tables.resize(pieces);
  side_by_side(pieces, options.workers, [&](std::size_t i) {
    options.go_on();
    const PieceState* start = options.start.empty() ? nullptr : &options.start[i];
    const FiringSetup alone = alone_as_the_maker(request, request.pieces[i], start);
    const std::shared_ptr<MakerRun> maker = maker_run(request, i, alone, stock, chamber, options);
    rehearsal.reference[i] = maker->result();
    if (options.stress) add_stress(alone, stock, maker->history(), false, rehearsal.reference[i]);
    if (options.inputs != nullptr) nominal.maker[i] = maker->history();
    rehearsal.compared[i] = compare(
        alone, stock, chamber, hold_s, rehearsal.reference[i].pieces[0], rehearsal.firing.pieces[i], solver_of_this_thread(), *maker,
        [&options] { options.go_on(); }, options.inputs != nullptr ? &nominal.tables[i] : nullptr);
  });
}

}  // namespace

FiringSetup setup_of(const trade::ResolvedFiring& request, const std::vector<trade::Piece>& pieces, double tray_kg,
                     const std::vector<PieceState>& start) {
  FiringSetup setup;
  for (const trade::Piece& piece : pieces) setup.pieces.push_back(&piece);
  setup.places = request.places;
  setup.tray = &request.tray;
  setup.tray_kg = tray_kg;
  setup.room_C = request.firing.chamber.room.value.celsius();
  setup.start = start;
  return setup;
}

FiringSetup alone_as_the_maker(const trade::ResolvedFiring& request, const trade::Piece& piece, const PieceState* start) {
  FiringSetup alone;
  alone.pieces = {&piece};
  alone.places = {trade::PlaceOnTray::middle};
  alone.tray = &*request.instruction_tray;
  alone.tray_kg = request.instruction_tray->mass->value.si();
  alone.room_C = request.firing.chamber.room.value.celsius();
  if (start != nullptr) alone.start = {*start};
  return alone;
}

std::string_view word(DecidingQuantity quantity) {
  switch (quantity) {
    case DecidingQuantity::none:
      return "none";
    case DecidingQuantity::heat_work:
      return "heat-work";
    case DecidingQuantity::log_theta:
      return "ln Theta";
    case DecidingQuantity::crystallisation_z:
      return "z of the last step";
  }
  return "none";
}

std::string_view word(MomentKind kind) {
  switch (kind) {
    case MomentKind::dry:
      return "dry";
    case MomentKind::closed:
      return "closed";
    case MomentKind::vacuum_started:
      return "vacuum started";
    case MomentKind::vacuum_reached:
      return "vacuum reached";
    case MomentKind::half_sealed:
      return "pores half sealed";
    case MomentKind::sealed:
      return "pores sealed";
    case MomentKind::released:
      return "released";
    case MomentKind::top:
      return "top";
    case MomentKind::hold_ends:
      return "hold ends";
    case MomentKind::open:
      return "open";
  }
  return "";
}

namespace {

/// A piece as an earlier firing left it.
struct Left {
  const trade::ResolvedFiring* firing;
  std::size_t piece;
  PieceState state;
};

std::vector<PieceState> carried_into(const trade::ResolvedFiring& firing, const std::map<std::string, Left>& left) {
  const Stock stock{firing.materials, firing.liquids, firing.supports};
  std::vector<PieceState> start;
  for (std::size_t i = 0; i < firing.pieces.size(); ++i) {
    const auto& was = firing.firing.pieces[i].was;
    const auto found = left.find(was ? was->value : firing.pieces[i].name);
    if (found == left.end()) {
      start.push_back(start_state(points_of(firing.pieces[i], stock)));
      continue;
    }
    const trade::ResolvedFiring& before = *found->second.firing;
    const Stock stock_before{before.materials, before.liquids, before.supports};
    start.push_back(carried_state(before.pieces[found->second.piece], stock_before, found->second.state, firing.pieces[i], stock));
  }
  return start;
}

/// States of this firing's pieces after those before it: each replayed from the states the one before left, or taken from the cache.
std::vector<PieceState> replay(const trade::ResolvedFiring& request, const RehearseOptions& options) {
  StateCache* const cache = options.cache;
  std::map<std::string, Left> left;
  for (const trade::ResolvedFiring& earlier : request.earlier) {
    RehearseOptions plain;
    plain.compare = plain.traces = false;
    plain.stress = options.stress;
    plain.stop = options.stop;
    if (!left.empty()) plain.start = carried_into(earlier, left);
    const std::string key = kept_under(inputs_hash(earlier, plain.start, options.stress), earlier);
    std::vector<PieceState> end;
    if (auto kept = cache != nullptr ? cache->find(key) : std::nullopt) {
      end = std::move(*kept);
    } else {
      const Rehearsal before = rehearse(earlier, plain);
      if (before.impossible) throw std::domain_error(fmt::format("The earlier firing {}: {}", earlier.firing.name, *before.impossible));
      end = before.firing.end;
      if (cache != nullptr) cache->keep(key, end);
    }
    for (std::size_t i = 0; i < earlier.pieces.size(); ++i) left.insert_or_assign(earlier.pieces[i].name, Left{&earlier, i, end[i]});
  }
  return carried_into(request, left);
}

}  // namespace

Rehearsal rehearse(const trade::ResolvedFiring& request, const RehearseOptions& given) {
  if (request.pieces.empty()) throw trade::Mistake(request.firing.place, "a firing with no piece on the tray; name at least one");
  if (!given.start.empty() && given.start.size() != request.pieces.size())
    throw std::logic_error("rehearse was given states for another number of pieces");
  const Stock stock{request.materials, request.liquids, request.supports};
  RehearseOptions options = given;
  if (options.start.empty() && !request.earlier.empty()) options.start = replay(request, options);
  Rehearsal rehearsal;
  rehearsal.request = request;
  rehearsal.model_version = model_version;
  rehearsal.inputs_hash = inputs_hash(request, options.start, options.stress);
  rehearsal.bands = options.inputs != nullptr;
  rehearsal.compared.resize(request.pieces.size());
  for (const trade::Piece& piece : request.pieces)
    for (const trade::Section& section : piece.sections) {
      const SectionGeometry geometry = geometry_of(piece, section);
      if (!geometry.from_shape.empty()) rehearsal.taken_from_shape.push_back(geometry.from_shape);
    }

  options.go_on();
  const ChamberConditions conditions = conditions_today(request.furnace, request.firing.chamber, ambient_Pa_of(request));
  const std::optional<ChamberHistory> run = run_or_say(request.program, request.furnace, conditions, rehearsal.impossible);
  if (!run) return rehearsal;
  const ChamberHistory& chamber = *run;
  physics::LoadSolver& solver = solver_of_this_thread();
  NominalRun nominal;
  nominal.conditions = conditions;
  FiringSetup setup;
  CooledPieces cooled;  // keeps places in the setup
  if (request.tray.mass) {
    setup = setup_of(request, request.pieces, request.tray.mass->value.si(), options.start);
    solver.set_load(load_of(setup, stock));
    const physics::LoadHistory& history = solver.solve(surroundings_of(chamber));
    rehearsal.firing = lived(setup, stock, chamber, history);
    if (options.stress) cooled = add_stress(setup, stock, history, options.traces, rehearsal.firing);
    if (options.inputs != nullptr) nominal.here = history;
  } else {
    rehearsal.tray_known = false;
    const MassRange range = mass_range(request.tray, request.lab_trays, stock);
    rehearsal.assumptions.push_back(
        fmt::format("The mass of tray {} is not given: heat is drawn as a band, {}.", request.tray.name, range.said));
    const auto fired = [&](double tray_kg) {
      const FiringSetup tried = setup_of(request, request.pieces, tray_kg, options.start);
      solver.set_load(load_of(tried, stock));
      const physics::LoadHistory& history = solver.solve(surroundings_of(chamber));
      FiringResult result = lived(tried, stock, chamber, history);
      if (options.stress) add_stress(tried, stock, history, options.traces, result);
      return result;
    };
    rehearsal.firing = fired(range.low_kg);
    rehearsal.heaviest = fired(range.high_kg);
  }
  rehearsal.moments = moments_of(rehearsal.firing);
  if (options.compare && comparable(request, rehearsal)) {
    state_assumptions(request, rehearsal);
    compare_with_maker(request, stock, options, rehearsal, nominal);
  }
  if (options.inputs != nullptr && rehearsal.tray_known) run_variants(options, nominal, rehearsal);
  if (options.inputs != nullptr && !cooled.empty()) complete_stress(conditions, cooled, options, rehearsal);
  return rehearsal;
}

}  // namespace heatwork::firing
