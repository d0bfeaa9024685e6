// Errors found at several temperatures, by wire and by thermocouple, taken together: a line with its uncertainty at any temperature.
#pragma once

#include <string>
#include <vector>

#include "furnace_care/budget.h"

namespace heatwork::furnace_care {

/// One error found. What its findings share (one thermocouple's calibration) does not average out.
struct ErrorFound {
  double temperature_C = 0;  ///< true
  double error_K = 0;        ///< display - true
  double own_u_K = 0;        ///< standard uncertainty that is this finding's own
  double shared_u_K = 0;     ///< standard uncertainty shared with all findings of the same means
  int means = 0;             ///< findings of one number were made with the same thermocouple
};

/// With the parts of its budget that are shared apart from its own.
[[nodiscard]] ErrorFound found_with(double temperature_C, double error_K, const Budget& budget, int means);

struct ErrorAt {
  double error_K = 0;
  double standard_uncertainty_K = 0;
  double low_K = 0, high_K = 0;  ///< where one temperature only was checked: constant, or in proportion; else the error itself
};

/// What stays unsure of a line, and how well the findings agree.
struct ErrorLine {
  std::vector<ErrorFound> found;
  bool is_line = false;         ///< false: one temperature, carried to others
  double slope_K_per_100K = 0;  ///< of a line
  double agreement = 0;         ///< root of the mean square of residuals in their uncertainties; above 1 they scatter more than claimed
  std::string sentence;         ///< what it rests on

  /// Range: 20 to 1800 °C, else std::domain_error. source: gum-2008
  [[nodiscard]] ErrorAt at(double temperature_C) const;
};

/// Generalised least squares of all findings with their shared uncertainties; scatter beyond them widens it.
/// Findings less than 20 K apart make no line. Errors: std::domain_error without a finding or with an uncertainty of 0.
/// source: gum-2008 theory: (display-offset.3) (display-offset.10)
[[nodiscard]] ErrorLine line_of(std::vector<ErrorFound> found);

}  // namespace heatwork::furnace_care
