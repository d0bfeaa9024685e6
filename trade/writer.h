// A noun written as the file it is read from, with canonical values, and the canonical values alone for hashing.
#pragma once

#include <string>
#include <string_view>

#include "trade/alloy.h"
#include "trade/firing.h"
#include "trade/noun.h"

namespace heatwork::trade {

/// The file of a noun: `format = 1` and its table. Read back it gives the same values; defaults are written out.
template <class T>
[[nodiscard]] std::string write_noun(const T& noun);

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) extern template std::string write_noun<type>(const type&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

/// Everything of a firing that changes a number, as lines "path=value" in a fixed order: no name, label, note or typed text.
/// Where a noun is named, the hash of its own lines stands instead, so that renaming changes nothing. What decides nothing but the stress
/// of cooling takes part where `stress` asks for it.
[[nodiscard]] std::string canonical_text(const ResolvedFiring& firing, bool stress = false);

/// BLAKE2b-256 of some bytes, in 64 hexadecimal digits.
[[nodiscard]] std::string blake2b_256(std::string_view bytes);

}  // namespace heatwork::trade
