// Stress of all pieces of a firing, with what the materials' ranges and another cooling do to it.
#pragma once

#include <vector>

#include "firing/fire.h"
#include "firing/rehearsal.h"
#include "firing/stress_of_firing.h"
#include "physics/load.h"

namespace heatwork::firing {

/// The sections of each piece, as they were cooled.
using CooledPieces = std::vector<std::vector<CooledSection>>;

/// Adds the stress of each piece to a result whose temperatures these are, and to the states it ends with. What is returned keeps places in
/// `setup.start`.
CooledPieces add_stress(const FiringSetup& setup, const Stock& stock, const physics::LoadHistory& history, bool traces,
                        FiringResult& result);

/// Adds to the firing that was computed the bounds over the ranges of the materials, and to the section of each piece with the most tension
/// what another cooling would do; both are taken from the cache of stress where they stand there. Errors: Stopped.
/// theory: (stress-judgement.6)
void complete_stress(const ChamberConditions& conditions, const CooledPieces& cooled, const RehearseOptions& options, Rehearsal& rehearsal);

}  // namespace heatwork::firing
