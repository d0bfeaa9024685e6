#include "metrology/least_squares.h"

#include <cmath>
#include <stdexcept>
#include <vector>

namespace heatwork::metrology {
namespace {

double dot(std::span<const double> a, std::span<const double> b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

}  // namespace

LinearFit fit_columns(std::span<const std::span<const double>> columns, std::span<const double> y) {
  const std::size_t n = columns.size(), m = y.size();
  if (n == 0 || n > most_columns || m < n) throw std::domain_error("A fit needs at least as many values as it has unknowns.");
  std::array<std::array<double, most_columns>, most_columns> r{};
  std::vector<std::vector<double>> q(n);
  std::vector<double> left(y.begin(), y.end());
  std::array<double, most_columns> projected{};
  for (std::size_t j = 0; j < n; ++j) {
    q[j].assign(columns[j].begin(), columns[j].end());
    const double whole = std::sqrt(dot(q[j], q[j]));
    for (std::size_t k = 0; k < j; ++k) {
      r[k][j] = dot(q[k], q[j]);
      for (std::size_t i = 0; i < m; ++i) q[j][i] -= r[k][j] * q[k][i];
    }
    r[j][j] = std::sqrt(dot(q[j], q[j]));
    if (!(r[j][j] > 1e-10 * whole)) throw std::domain_error("The values do not tell the unknowns of the fit apart.");
    for (double& each : q[j]) each /= r[j][j];
    projected[j] = dot(q[j], left);
    for (std::size_t i = 0; i < m; ++i) left[i] -= projected[j] * q[j][i];
  }
  LinearFit out;
  out.squares = dot(left, left);
  std::array<std::array<double, most_columns>, most_columns> inverse{};
  for (std::size_t j = 0; j < n; ++j) {  // inverse of the upper triangle, column by column
    inverse[j][j] = 1.0 / r[j][j];
    for (std::size_t i = j; i-- > 0;) {
      for (std::size_t k = i + 1; k <= j; ++k) inverse[i][j] -= r[i][k] * inverse[k][j];
      inverse[i][j] /= r[i][i];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i; j < n; ++j) {
      out.coefficients[i] += inverse[i][j] * projected[j];
      out.variances[i] += inverse[i][j] * inverse[i][j];
    }
  }
  return out;
}

}  // namespace heatwork::metrology
