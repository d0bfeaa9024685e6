#include "firing/fire.h"

#include <cmath>

#include "firing/column.h"
#include "metrology/atmosphere.h"
#include "metrology/water_saturation.h"

namespace heatwork::firing {

double ambient_Pa_of(const trade::ResolvedFiring& request) {
  if (request.firing.barometer) return request.firing.barometer->value.si();
  return metrology::standard_atmosphere_Pa(request.furnace.altitude.value.si());
}

double room_vapour_Pa(double room_C, double humidity) {
  return humidity * metrology::water_saturation_Pa(room_C);
}

physics::Surroundings surroundings_of(const ChamberHistory& chamber) {
  physics::Surroundings around;
  around.time_s = chamber.time_s;
  around.chamber_K = chamber.chamber_C;
  for (double& t : around.chamber_K) t += physics::zero_celsius_K;
  around.pressure_Pa = chamber.pressure_Pa;
  around.opening = chamber.opening;
  around.room_K = chamber.room_C + physics::zero_celsius_K;
  around.room_pressure_Pa = chamber.ambient_Pa;
  around.room_vapour_Pa = room_vapour_Pa(chamber.room_C, chamber.room_humidity);
  return around;
}

namespace {

/// Which green layers of a piece its state shows to be fired already.
std::vector<std::vector<bool>> fired_layers(const trade::Piece& piece, const PieceState& start, const Stock& stock) {
  std::vector<std::vector<bool>> fired;
  for (const trade::Section& section : piece.sections) fired.emplace_back(section.layers.size(), false);
  const std::vector<Point> points = points_of(piece, stock);
  for (std::size_t i = 0; i < points.size(); ++i)
    if (is_fired(points[i], start.points[i]))
      fired[static_cast<std::size_t>(points[i].section)][static_cast<std::size_t>(points[i].layer)] = true;
  return fired;
}

}  // namespace

physics::Load load_of(const FiringSetup& setup, const Stock& stock) {
  const double room_K = setup.room_C + physics::zero_celsius_K;
  physics::Load load;
  load.tray = body_of(*setup.tray, setup.tray_kg, stock, room_K);
  for (std::size_t i = 0; i < setup.pieces.size(); ++i) {
    const trade::Piece& piece = *setup.pieces[i];
    const auto fired = setup.start.empty() ? std::vector<std::vector<bool>>{} : fired_layers(piece, setup.start[i], stock);
    load.pieces.push_back(body_of(piece, setup.places[i], stock, room_K, fired));
  }
  return load;
}

physics::LoadSolver& solver_of_this_thread() {
  thread_local physics::LoadSolver solver;
  return solver;
}

FiringResult fire(const FiringSetup& setup, const Stock& stock, ChamberHistory chamber, physics::LoadSolver& solver) {
  solver.set_load(load_of(setup, stock));
  const physics::LoadHistory& history = solver.solve(surroundings_of(chamber));
  return lived(setup, stock, std::move(chamber), history);
}

FiringResult lived(const FiringSetup& setup, const Stock& stock, ChamberHistory chamber, const physics::LoadHistory& history,
                   Detail detail) {
  FiringResult result;
  result.time_s = common_times(history.time_s, chamber.time_s);
  result.tray_C = read_off(history.time_s, history.tray_K, result.time_s);
  for (double& t : result.tray_C) t -= physics::zero_celsius_K;
  std::size_t first = 0;
  for (std::size_t i = 0; i < setup.pieces.size(); ++i) {
    const std::size_t count = setup.pieces[i]->sections.size();
    const auto sections = std::span(history.sections).subspan(first, count);
    first += count;
    const PieceState start = setup.start.empty() ? start_state(points_of(*setup.pieces[i], stock)) : setup.start[i];
    const std::vector<bool>* pores_at = setup.pores_at.empty() ? nullptr : &setup.pores_at[i];
    PieceLife life =
        live(*setup.pieces[i], setup.places[i], stock, sections, history.time_s, chamber, result.time_s, start, detail, pores_at);
    result.pieces.push_back(std::move(life.result));
    result.end.push_back(std::move(life.end));
  }
  const physics::EnergyLedger& energy = history.energy;
  const double turned_over = std::abs(energy.radiated_J) + std::abs(energy.convected_J) + std::abs(energy.evaporated_J);
  const double residual = energy.stored_J - (energy.radiated_J + energy.convected_J - energy.evaporated_J);
  result.energy_residual_share = turned_over > 0 ? residual / turned_over : 0;
  result.chamber = std::move(chamber);
  return result;
}

}  // namespace heatwork::firing
