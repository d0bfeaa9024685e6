// Points of Gauss and Lobatto on a stretch: both ends and the points between that integrate and differentiate polynomials best.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace heatwork::physics {

/// Points from -1 to 1, their weights (sum 2), and the derivatives of the polynomials through them, row by row [1].
/// theory: (cooling-stress.6)
struct LobattoPoints {
  std::vector<double> place, weight, derivative, barycentric;
  /// Number of points.
  [[nodiscard]] std::size_t count() const { return place.size(); }
  /// Value at a place from -1 to 1 of the polynomial through values at the points [unit of the values].
  [[nodiscard]] double value(const double* at_points, double where) const;
};

/// The points, weights and slopes for a count. Range: 2 to 64 points. source: abramowitz-stegun. Throws std::domain_error. theory:
/// (cooling-stress.6)
LobattoPoints lobatto_points(std::size_t count);

/// Solves a symmetric system without pivoting: L D L^T, each row from the first place that may differ from zero to the diagonal.
/// theory: (cooling-stress.7)
class SymmetricSystem {
 public:
  /// One row for each of these first places; all zero.
  void shape(std::vector<std::size_t> first);
  /// Makes all entries zero.
  void clear() { std::fill(entry_.begin(), entry_.end(), 0.0); }
  /// Entry of row i and column j, j at most i and not before the first place [unit of the system].
  double& at(std::size_t i, std::size_t j) { return entry_[start_[i] + j]; }
  /// Factors in place.
  void factor();
  /// b becomes the solution.
  void solve(double* b) const;

 private:
  std::vector<std::size_t> first_, start_;  // of each row: its first place, and where column 0 would be
  std::vector<double> entry_, inverse_;
};

}  // namespace heatwork::physics
