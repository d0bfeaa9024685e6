// "Like ... K" and "like ... s of hold": the maker's firing in the true furnace, shifted until the piece gets what it gets here.
#pragma once

#include "firing/fire.h"
#include "firing/maker_runs.h"
#include "firing/maker_table.h"
#include "firing/rehearsal.h"

namespace heatwork::firing {

/// Bounds and resolution of the two roots. Beyond the bounds there is no number.
inline constexpr double widest_shift_K = 150.0;
inline constexpr double shift_resolution_K = 0.02;
inline constexpr double longest_added_hold_s = 3600.0;
inline constexpr double hold_resolution_s = 0.2;

/// Steps of runs of which only differences are wanted: a difference of two runs with the same steps errs far less than either; tests hold
/// them against the finer ones.
inline constexpr physics::LoadAccuracy coarse_steps{0.2, 8, 30, 0.3, 4e-3, false};

/// Compares one piece of a firing with the maker's own firing of it. `reference` is that setup (the piece alone) in `reference_chamber`,
/// `maker` what the piece got there; `here` is what the piece got. The search runs with coarse steps, and its quantities are carried to the
/// finer ones by what the two give at no shift. The deciding quantity is compared at the point with the least and at the one with the
/// greatest; the larger difference is given. `table`, where asked for, keeps the maker's firing around what was found; `go_on` is called
/// before each run of the search, and what was run before is taken from `kept`.
///
/// theory: (comparison.2) (comparison.3) (comparison.4)
Comparison compare(const FiringSetup& reference, const Stock& stock, const ChamberHistory& reference_chamber, double hold_of_maker_s,
                   const PieceResult& maker, const PieceResult& here, physics::LoadSolver& solver, MakerRun& kept,
                   const std::function<void()>& go_on, MakerTable* table = nullptr);

}  // namespace heatwork::firing
