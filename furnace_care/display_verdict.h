// Whether a display is within its limit, by the whole range of the error found: one rule for wire, thermocouple and chart.
#pragma once

#include <string>
#include <vector>

#include "furnace_care/budget.h"
#include "furnace_care/question.h"
#include "trade/check.h"

namespace heatwork::furnace_care {

/// The range told of an error goes so many standard uncertainties either way. source: gum-2008
inline constexpr double coverage = 2.0;

/// Where the range of an error lies: wholly within the limit, wholly beyond it, or on both sides of it.
enum class AgainstLimit { inside, outside, passes };

/// Of the range e +- 2 u. source: gum-2008 theory: (display-offset.13)
[[nodiscard]] AgainstLimit against_limit(double error_K, double standard_uncertainty_K, double limit_K);

/// The error of a display at one temperature, with all that is known of it.
struct DisplayError {
  double true_C = 0;
  double error_K = 0;  ///< display - true
  double standard_uncertainty_K = 0;
};

struct DisplayVerdict {
  CheckLevel level = CheckLevel::cannot_tell;
  bool correct = false;                 ///< a correction makes the chamber truer, whether the limit is surely passed or not
  bool stop_use = false;                ///< the furnace should not be used as it is
  std::size_t worst = 0;                ///< which of the errors is the largest
  std::string sentence;                 ///< of the level
  std::vector<std::string> settled_by;  ///< where it cannot tell: what would settle it, in order
};

/// good: every range within the limit; not good: one beyond it, or an error of more than 20 K; else it cannot be told yet. A correction
/// is advised where an error above the limit is surely none of 0. `by`: temperature or thermocouple; at least one error. source: gum-2008
[[nodiscard]] DisplayVerdict judge_display(const std::vector<DisplayError>& errors, double limit_K, trade::CheckOf by);

/// Where other checks were taken in: what this one found by itself, and that they do not agree where they scatter by more than twice what
/// they claim.
[[nodiscard]] std::vector<std::string> remarks_on_others(double error_K, double standard_uncertainty_K, double agreement);

}  // namespace heatwork::furnace_care
