// Linear least squares of a few columns, by orthogonal columns.
#pragma once

#include <array>
#include <cstddef>
#include <span>

namespace heatwork::metrology {

inline constexpr std::size_t most_columns = 4;

/// Coefficients of a fit; its variances times the variance of one value are those of the coefficients.
struct LinearFit {
  std::array<double, most_columns> coefficients{};
  std::array<double, most_columns> variances{};
  double squares = 0.0;  ///< sum of squared misses
};

/// Fits y by a sum of columns, each as long as y [units of y].
/// Range: 1 to 4 columns, none a sum of the others, at least as many values as columns; else std::domain_error. source: computed-here
LinearFit fit_columns(std::span<const std::span<const double>> columns, std::span<const double> y);

}  // namespace heatwork::metrology
