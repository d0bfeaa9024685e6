// A straight line through points of equal weight, with its uncertainty.
#pragma once

#include <span>

namespace heatwork::metrology {

/// y = intercept + slope (x - origin), with standard uncertainties from the scatter of the points.
struct StraightLine {
  double origin;
  double intercept, slope;
  double intercept_u, slope_u;
  double correlation;  ///< between intercept and slope
  double residual_sd;
};

/// Least squares of equal weights, n - 2 degrees of freedom [units of y, of y/x].
/// Range: at least 3 points, not all at one x, else std::domain_error. source: gum-2008 theory: (display-offset.1)
StraightLine fit_straight_line(std::span<const double> x, std::span<const double> y, double origin);

/// A value and its standard uncertainty.
struct Predicted {
  double value, uncertainty;
};

/// The line at a place, and its standard uncertainty there [units of y].
/// source: gum-2008 theory: (display-offset.2)
Predicted line_at(const StraightLine& line, double x);

}  // namespace heatwork::metrology
