// A smooth surface through the results of a spread set: what many more members would give, from few.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "physics/lobatto.h"

namespace heatwork::physics {

/// A member of a set: its place in each of four ranges, 0 to 1 [1].
using SpreadPoint = std::array<double, 4>;

/// Polynomials of all four places together up to a degree, fitted by least squares. theory: (cooling-stress.20)
class ResponseSurface {
 public:
  /// The highest degree from 1 to 4 whose polynomials are no more than half as many as the members. Range: 10 members at least.
  explicit ResponseSurface(std::span<const SpreadPoint> members);

  /// Fitted to the value of each member: the polynomials' shares, and by how much it misses them, as a standard deviation that counts the
  /// polynomials [unit of the values].
  struct Fit {
    std::vector<double> shares;
    double misses = 0;
  };
  /// The fit to a value of each member [unit of the values]. source: chosen-here
  [[nodiscard]] Fit fit(std::span<const double> values) const;

  /// Values of a fit at points laid out by `at` [unit of the values].
  [[nodiscard]] std::vector<double> values(const Fit& fit, std::span<const double> layout) const;
  /// The polynomials at points, point after point [1].
  [[nodiscard]] std::vector<double> at(std::span<const SpreadPoint> points) const;

 private:
  std::vector<std::array<unsigned, 4>> degrees_;
  std::vector<double> layout_;  ///< of the members
  SymmetricSystem normal_;
};

}  // namespace heatwork::physics
