// Points of Gauss and Lobatto on a stretch: both ends and the points between that integrate and differentiate polynomials best.
#pragma once

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

/// Solves a symmetric system without pivoting: L D L^T, rows full from the first to the diagonal.
/// theory: (cooling-stress.7)
class SymmetricSystem {
 public:
  /// Takes room for n rows, all zero.
  void clear(std::size_t n) {
    n_ = n;
    entry_.assign(n * n, 0.0);
  }
  /// Entry of row i and column j, j at most i [unit of the system].
  double& at(std::size_t i, std::size_t j) { return i >= j ? entry_[i * n_ + j] : entry_[j * n_ + i]; }
  /// Factors in place.
  void factor();
  /// b becomes the solution.
  void solve(double* b) const;

 private:
  std::size_t n_ = 0;
  std::vector<double> entry_;
};

}  // namespace heatwork::physics
