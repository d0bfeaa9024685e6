// The moments of a firing that decide, in order of time: of the chamber and of each piece.
#pragma once

#include <vector>

#include "firing/rehearsal.h"

namespace heatwork::firing {

std::vector<Moment> moments_of(const FiringResult& firing);

}  // namespace heatwork::firing
