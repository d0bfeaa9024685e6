// One firing computed once: a load in a chamber. `rehearse` calls it for the firing asked for and for the maker's own.
#pragma once

#include <vector>

#include "firing/load_of_firing.h"
#include "firing/piece_life.h"
#include "firing/rehearsal.h"

namespace heatwork::firing {

/// A load to fire: which pieces where, on how heavy a tray.
struct FiringSetup {
  std::vector<const trade::Piece*> pieces;
  std::vector<trade::PlaceOnTray> places;
  const trade::Tray* tray = nullptr;
  double tray_kg = 0;
  double room_C = 22;
  std::vector<PieceState> start;            ///< one a piece; empty: as `start_state`
  std::vector<std::vector<bool>> pores_at;  ///< one list a piece of the points whose pores a variant follows; empty: all
};

/// All pieces of a firing in their places on its tray. `pieces` are those of the request, or changed ones in the same order.
FiringSetup setup_of(const trade::ResolvedFiring& request, const std::vector<trade::Piece>& pieces, double tray_kg,
                     const std::vector<PieceState>& start);

/// One piece as the maker's own firing has it: alone, in the middle, on the tray that stands for the maker's. `start` nullptr: as unfired.
FiringSetup alone_as_the_maker(const trade::ResolvedFiring& request, const trade::Piece& piece, const PieceState* start);

/// The chamber as the load sees it: true temperature, pressure, opening, room.
physics::Surroundings surroundings_of(const ChamberHistory& chamber);

/// The thermal network of a setup.
physics::Load load_of(const FiringSetup& setup, const Stock& stock);

/// The solver of this thread. It keeps its memory from load to load, which costs more than a short firing's steps; what it returns never
/// hangs on what it solved before.
physics::LoadSolver& solver_of_this_thread();

/// What a load's temperatures did to it: `history` is that of the setup in the chamber.
FiringResult lived(const FiringSetup& setup, const Stock& stock, ChamberHistory chamber, const physics::LoadHistory& history,
                   Detail detail = Detail::whole);

/// Fires a setup in a chamber with a solver that may be used again and again.
FiringResult fire(const FiringSetup& setup, const Stock& stock, ChamberHistory chamber, physics::LoadSolver& solver);

/// Pressure of the room's air: by the barometer where one was read, else by the altitude. [Pa]
double ambient_Pa_of(const trade::ResolvedFiring& request);

/// Vapour pressure of the room's air by its temperature and humidity. [Pa]
double room_vapour_Pa(double room_C, double humidity);

}  // namespace heatwork::firing
