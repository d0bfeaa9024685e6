// A noun written as the file it is read from, with canonical values, and the canonical values alone for hashing.
#pragma once

#include <string>
#include <string_view>

#include "trade/firing.h"
#include "trade/noun.h"

namespace heatwork::trade {

/// The file of a noun: `format = 1` and its table. Read back it gives the same values; defaults are written out.
template <class T>
[[nodiscard]] std::string write_noun(const T& noun);

extern template std::string write_noun<Program>(const Program&);
extern template std::string write_noun<Instruction>(const Instruction&);
extern template std::string write_noun<Furnace>(const Furnace&);
extern template std::string write_noun<Tray>(const Tray&);
extern template std::string write_noun<Support>(const Support&);
extern template std::string write_noun<Material>(const Material&);
extern template std::string write_noun<Liquid>(const Liquid&);
extern template std::string write_noun<Piece>(const Piece&);
extern template std::string write_noun<Firing>(const Firing&);

/// Everything of a firing that changes a number, as lines "path=value" in a fixed order: no name, label, note or typed text.
/// Where a noun is named, the hash of its own lines stands instead, so that renaming changes nothing.
[[nodiscard]] std::string canonical_text(const ResolvedFiring& firing);

/// BLAKE2b-256 of some bytes, in 64 hexadecimal digits.
[[nodiscard]] std::string blake2b_256(std::string_view bytes);

}  // namespace heatwork::trade
