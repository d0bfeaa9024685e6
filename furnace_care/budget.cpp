#include "furnace_care/budget.h"

#include <cmath>

#include "metrology/display_offset.h"

namespace heatwork::furnace_care {
namespace {

// Half widths of what one cannot see. Standing: assumed. source: chosen-here
constexpr double ripple_K = 1.0;
constexpr double place_K = 3.0;

}  // namespace

double combined_K(const Budget& budget) {
  return std::hypot(combined_K(budget, true), combined_K(budget, false));
}

double combined_K(const Budget& budget, bool is_shared) {
  double squares = 0;
  for (const BudgetPart& part : budget)
    if (part.is_shared == is_shared) squares += part.standard_uncertainty_K * part.standard_uncertainty_K;
  return std::sqrt(squares);
}

void add_parts_of_display(Budget& budget, double display_step_K) {
  using metrology::rectangular_uncertainty_K;
  using trade::Standing;
  // However often it is read, a wire or a probe stands where it stands.
  budget.push_back({"place in the chamber", rectangular_uncertainty_K(place_K), Standing::assumed, "chosen-here", true});
  budget.push_back({"step of the display", rectangular_uncertainty_K(display_step_K / 2), Standing::computed, "gum-2008"});
  budget.push_back({"ripple of the hold", rectangular_uncertainty_K(ripple_K), Standing::assumed, "chosen-here"});
}

}  // namespace heatwork::furnace_care
