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
  std::string source;      ///< key of the bibliography
  bool is_shared = false;  ///< with all findings of the same means, so that it does not average out
};

using Budget = std::vector<BudgetPart>;

/// Root of the sum of squares [K]. source: gum-2008
[[nodiscard]] double combined_K(const Budget& budget);
/// The same of the parts that are shared, or of those that are not [K]. source: gum-2008
[[nodiscard]] double combined_K(const Budget& budget, bool is_shared);

/// What every comparison with a display carries: the place in the chamber, the step of the display, the ripple of the hold.
void add_parts_of_display(Budget& budget, double display_step_K);

}  // namespace heatwork::furnace_care
