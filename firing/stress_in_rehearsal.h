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

/// Adds bounds over the ranges of the materials to each section, where bands are asked for. Errors: Stopped.
void add_stress_bounds(const CooledPieces& cooled, const RehearseOptions& options, FiringResult& result);

/// Adds to the section of each piece with the most tension what another cooling would do. Errors: Stopped. theory: (stress-judgement.6)
void add_levers(const trade::ResolvedFiring& request, const ChamberConditions& conditions, const CooledPieces& cooled,
                const RehearseOptions& options, FiringResult& result);

}  // namespace heatwork::firing
