// The firing with each deciding input taken to the ends of its range, for the bands of what is judged.
#pragma once

#include <vector>

#include "firing/maker_table.h"
#include "firing/rehearsal.h"
#include "physics/load.h"

namespace heatwork::firing {

/// What the variants build on: the conditions and temperatures of the firing as given and of the maker's.
struct NominalRun {
  ChamberConditions conditions;
  physics::LoadHistory here;
  ChamberHistory maker_chamber;             ///< without points where there is no comparison
  std::vector<physics::LoadHistory> maker;  ///< one a piece, or none
  std::vector<MakerTable> tables;           ///< one a piece, or none
};

/// Fills `coarse` and `varied` of a rehearsal whose nominal results are there.  theory: (judgement.1)
void run_variants(const RehearseOptions& options, const NominalRun& nominal, Rehearsal& rehearsal);

}  // namespace heatwork::firing
