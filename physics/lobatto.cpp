#include "physics/lobatto.h"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace heatwork::physics {

namespace {

// Legendre polynomials of degree n and n - 1.
void legendre(std::size_t n, double x, double& high, double& low) {
  low = 1.0;
  high = x;
  for (std::size_t k = 2; k <= n; ++k) {
    const double next = ((2.0 * static_cast<double>(k) - 1.0) * x * high - (static_cast<double>(k) - 1.0) * low) / static_cast<double>(k);
    low = high;
    high = next;
  }
}

}  // namespace

LobattoPoints lobatto_points(std::size_t count) {
  if (count < 2 || count > 64) throw std::domain_error("There are " + std::to_string(count) + " points, but there must be 2 to 64.");
  LobattoPoints points;
  const std::size_t degree = count - 1;
  const double n = static_cast<double>(degree);
  points.place.resize(count);
  points.weight.resize(count);
  for (std::size_t i = 0; i < count; ++i) {
    double x = -std::cos(std::numbers::pi * static_cast<double>(i) / n), high = 0.0, low = 0.0;
    for (int sweep = 0; sweep < 100; ++sweep) {
      legendre(degree, x, high, low);
      const double change = (x * high - low) / (static_cast<double>(count) * high);
      x -= change;
      if (std::abs(change) < 1e-16) break;
    }
    legendre(degree, x, high, low);
    points.place[i] = i == 0 ? -1.0 : i == degree ? 1.0 : x;
    points.weight[i] = 2.0 / (n * (n + 1.0) * high * high);
  }
  points.barycentric.assign(count, 1.0);
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = 0; j < count; ++j)
      if (i != j) points.barycentric[i] /= points.place[i] - points.place[j];
  points.derivative.assign(count * count, 0.0);
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = 0; j < count; ++j) {
      if (i == j) continue;
      const double slope = points.barycentric[j] / points.barycentric[i] / (points.place[i] - points.place[j]);
      points.derivative[i * count + j] = slope;
      points.derivative[i * count + i] -= slope;
    }
  }
  return points;
}

double LobattoPoints::value(const double* at_points, double where) const {
  double above = 0.0, below = 0.0;
  for (std::size_t i = 0; i < count(); ++i) {
    if (where == place[i]) return at_points[i];
    const double share = barycentric[i] / (where - place[i]);
    above += share * at_points[i];
    below += share;
  }
  return above / below;
}

void SymmetricSystem::factor() {
  for (std::size_t i = 0; i < n_; ++i) {
    double* row = &entry_[i * n_];
    for (std::size_t j = 0; j < i; ++j) {  // row[j] holds L D until its turn is over
      const double* other = &entry_[j * n_];
      double sum = row[j];
      for (std::size_t k = 0; k < j; ++k) sum -= row[k] * other[k];
      row[j] = sum;
    }
    for (std::size_t j = 0; j < i; ++j) {
      const double scaled = row[j] / entry_[j * n_ + j];
      row[i] -= row[j] * scaled;
      row[j] = scaled;
    }
  }
}

void SymmetricSystem::solve(double* b) const {
  for (std::size_t i = 0; i < n_; ++i)
    for (std::size_t j = 0; j < i; ++j) b[i] -= entry_[i * n_ + j] * b[j];
  for (std::size_t i = 0; i < n_; ++i) b[i] /= entry_[i * n_ + i];
  for (std::size_t i = n_; i-- > 0;)
    for (std::size_t j = 0; j < i; ++j) b[j] -= entry_[i * n_ + j] * b[i];
}

}  // namespace heatwork::physics
