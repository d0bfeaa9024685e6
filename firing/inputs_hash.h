// The name of a rehearsal's inputs: BLAKE2b-256 over the canonical values of all that changes a number, and nothing else.
#pragma once

#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// 64 hexadecimal digits. Labels, notes, typed texts, places in files and names' origins do not enter; the model version does. What
/// decides stress alone enters where stress is asked for.
std::string inputs_hash(const trade::ResolvedFiring& request, const std::vector<PieceState>& start, bool stress = false);

/// Under what a cache keeps results of a firing: the hash with the names of sections and of their materials, which results go by and the
/// hash does not know.
std::string kept_under(const std::string& inputs_hash, const trade::ResolvedFiring& request);

}  // namespace heatwork::firing
