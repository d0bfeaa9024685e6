// The whole uncertainty of a check, named part by part with where each number comes from.
#pragma once

#include <string>
#include <vector>

#include "trade/place.h"

namespace heatwork::furnace_care {

/// A standard uncertainty and its origin.
struct BudgetPart {
  std::string sentence;  ///< what it is of
  double standard_uncertainty_K = 0;
  trade::Standing standing = trade::Standing::assumed;
  std::string source;  ///< key of the bibliography
};

using Budget = std::vector<BudgetPart>;

/// Root of the sum of squares [K]. source: gum-2008
[[nodiscard]] double combined_K(const Budget& budget);

/// What every comparison with a display carries: its step, the ripple of the hold, the place in the chamber.
void add_parts_of_display(Budget& budget, double display_step_K);

}  // namespace heatwork::furnace_care
