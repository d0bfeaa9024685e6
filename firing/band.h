// The band of a number: how far it goes when each deciding input alone goes to the ends of its range.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firing/rehearsal.h"

namespace heatwork::firing {

struct Band {
  std::optional<double> low, high;  ///< absent where nothing was varied for the aspect
  std::string widest;               ///< name of the input that moves the number most; empty where none does
};

/// A number of one outcome; `reference` is the maker's firing that belongs to it, one a piece or none. NaN where it has none.
using Measure = std::function<double(const Outcome& outcome, const std::vector<FiringResult>& reference)>;

/// Nominal less and plus the root of the sum of squares of the one-sided changes, over the inputs of an aspect.  theory: (judgement.1)
Band band_of(const Rehearsal& rehearsal, std::string_view aspect, double nominal, const Measure& measure);

/// "Like so many kelvin" of a comparison; NaN beyond the bounds.
double shift_in(const Comparison& compared);
/// "Like so many seconds of hold" of a comparison; beyond the bounds the bound.
double hold_in(const Comparison& compared);

/// Band of a piece's shift; absent where it has no number.
Band band_of_shift(const Rehearsal& rehearsal, std::size_t piece);
/// Band of a piece's hold; absent where it has no number.
Band band_of_hold(const Rehearsal& rehearsal, std::size_t piece);

}  // namespace heatwork::firing
