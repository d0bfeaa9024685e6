#include <fmt/format.h>

#include <algorithm>

#include "firing/comparison.h"
#include "firing/fire.h"
#include "firing/inputs_hash.h"
#include "firing/moments.h"
#include "firing/rehearsal.h"
#include "metrology/atmosphere.h"
#include "trade/mistake.h"

namespace heatwork::firing {
namespace {

double ambient_Pa_of(const trade::ResolvedFiring& request) {
  if (request.firing.barometer) return request.firing.barometer->value.si();
  return metrology::standard_atmosphere_Pa(request.furnace.altitude.value.si());
}

FiringSetup setup_of(const trade::ResolvedFiring& request, double tray_kg, const std::vector<PieceState>& start) {
  FiringSetup setup;
  for (const trade::Piece& piece : request.pieces) setup.pieces.push_back(&piece);
  setup.places = request.places;
  setup.tray = &request.tray;
  setup.tray_kg = tray_kg;
  setup.room_C = request.firing.chamber.room.value.celsius();
  setup.start = start;
  return setup;
}

/// Instruction, its program and a tray of known mass, or why the comparison cannot be made.
bool comparable(const trade::ResolvedFiring& request, Rehearsal& rehearsal) {
  if (!request.instruction || !request.instruction_program) return false;
  if (!request.instruction_tray || !request.instruction_tray->mass) {
    rehearsal.assumptions.emplace_back("No tray of known mass stands for the maker's own: the comparison cannot be made; give a tray its mass.");
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
  said.push_back(request.furnace.pump.time_constant_when_new ? "Pump as when new." : "Pump as measured: its values when new are not known.");
  said.push_back(request.instruction_tray_is_lightest
                     ? fmt::format("The instruction names no tray: the lab's lightest of known mass, {}, stands for it.", request.instruction_tray->name)
                     : fmt::format("Tray {} as the instruction names it.", request.instruction_tray->name));
  said.emplace_back("Each piece alone in the middle of the tray; materials, altitude and room as in this firing.");
}

void compare_with_maker(const trade::ResolvedFiring& request, const Stock& stock, const std::vector<PieceState>& start, physics::LoadSolver& solver,
                        Rehearsal& rehearsal) {
  const ChamberConditions conditions = conditions_true(request.furnace, request.firing.chamber, ambient_Pa_of(request));
  const ChamberHistory chamber = run_program(*request.instruction_program, request.furnace, conditions);
  const ChamberMoment* begins = chamber.find(ChamberEvent::hold_begins);
  const ChamberMoment* ends = chamber.find(ChamberEvent::hold_ends);
  const double hold_s = begins != nullptr && ends != nullptr ? ends->time_s - begins->time_s : 0;
  for (std::size_t i = 0; i < request.pieces.size(); ++i) {
    FiringSetup alone;
    alone.pieces = {&request.pieces[i]};
    alone.places = {trade::PlaceOnTray::middle};
    alone.tray = &*request.instruction_tray;
    alone.tray_kg = request.instruction_tray->mass->value.si();
    alone.room_C = request.firing.chamber.room.value.celsius();
    if (!start.empty()) alone.start = {start[i]};
    rehearsal.reference.push_back(fire(alone, stock, chamber, solver));
    rehearsal.compared[i] = compare(alone, stock, chamber, hold_s, rehearsal.firing.pieces[i], solver);
  }
}

}  // namespace

std::string_view word(DecidingQuantity quantity) {
  switch (quantity) {
    case DecidingQuantity::none: return "none";
    case DecidingQuantity::heat_work: return "heat-work";
    case DecidingQuantity::crystallisation_z: return "z of the last step";
  }
  return "none";
}

std::string_view word(MomentKind kind) {
  switch (kind) {
    case MomentKind::dry: return "dry";
    case MomentKind::closed: return "closed";
    case MomentKind::vacuum_started: return "vacuum started";
    case MomentKind::vacuum_reached: return "vacuum reached";
    case MomentKind::half_sealed: return "pores half sealed";
    case MomentKind::sealed: return "pores sealed";
    case MomentKind::released: return "released";
    case MomentKind::top: return "top";
    case MomentKind::hold_ends: return "hold ends";
    case MomentKind::open: return "open";
  }
  return "";
}

Rehearsal rehearse(const trade::ResolvedFiring& request, const RehearseOptions& options) {
  if (request.pieces.empty()) throw trade::Mistake(request.firing.place, "a firing with no piece on the tray; name at least one");
  if (!options.start.empty() && options.start.size() != request.pieces.size())
    throw std::logic_error("rehearse was given states for another number of pieces");
  const Stock stock{request.materials, request.liquids, request.supports};
  Rehearsal rehearsal;
  rehearsal.request = request;
  rehearsal.model_version = model_version;
  rehearsal.inputs_hash = inputs_hash(request, options.start);
  rehearsal.compared.resize(request.pieces.size());
  for (const trade::Piece& piece : request.pieces)
    for (const trade::Section& section : piece.sections) {
      const SectionGeometry geometry = geometry_of(piece, section);
      if (!geometry.from_shape.empty()) rehearsal.taken_from_shape.push_back(geometry.from_shape);
    }

  const ChamberConditions conditions = conditions_today(request.furnace, request.firing.chamber, ambient_Pa_of(request));
  const ChamberHistory chamber = run_program(request.program, request.furnace, conditions);
  physics::LoadSolver solver;
  if (request.tray.mass) {
    rehearsal.firing = fire(setup_of(request, request.tray.mass->value.si(), options.start), stock, chamber, solver);
  } else {
    rehearsal.tray_known = false;
    const MassRange range = mass_range(request.tray, request.lab_trays, stock);
    rehearsal.assumptions.push_back(fmt::format("The mass of tray {} is not given: heat is drawn as a band, {}.", request.tray.name, range.said));
    rehearsal.firing = fire(setup_of(request, range.low_kg, options.start), stock, chamber, solver);
    rehearsal.heaviest = fire(setup_of(request, range.high_kg, options.start), stock, chamber, solver);
  }
  rehearsal.moments = moments_of(rehearsal.firing);
  if (options.compare && comparable(request, rehearsal)) {
    state_assumptions(request, rehearsal);
    compare_with_maker(request, stock, options.start, solver, rehearsal);
  }
  return rehearsal;
}

}  // namespace heatwork::firing
