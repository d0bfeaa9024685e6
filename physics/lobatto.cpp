#include "physics/lobatto.h"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>
#include <utility>

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

void SymmetricSystem::shape(std::vector<std::size_t> first) {
  first_ = std::move(first);
  start_.resize(first_.size());
  std::size_t total = 0;
  for (std::size_t i = 0; i < first_.size(); ++i) {
    start_[i] = total;
    total += i + 1;
  }
  entry_.assign(total, 0.0);
  inverse_.assign(first_.size(), 0.0);
}

void SymmetricSystem::factor() {
  for (std::size_t i = 0; i < first_.size(); ++i) {
    double* row = &entry_[start_[i]];
    for (std::size_t j = first_[i]; j < i; ++j) {  // row[j] holds L D until its turn is over
      const double* other = &entry_[start_[j]];
      double sum = row[j];
      for (std::size_t k = std::max(first_[i], first_[j]); k < j; ++k) sum -= row[k] * other[k];
      row[j] = sum;
    }
    for (std::size_t j = first_[i]; j < i; ++j) {
      const double scaled = row[j] * inverse_[j];
      row[i] -= row[j] * scaled;
      row[j] = scaled;
    }
    inverse_[i] = 1.0 / row[i];
  }
}

void SymmetricSystem::solve(double* b) const {
  for (std::size_t i = 0; i < first_.size(); ++i)
    for (std::size_t j = first_[i]; j < i; ++j) b[i] -= entry_[start_[i] + j] * b[j];
  for (std::size_t i = 0; i < first_.size(); ++i) b[i] *= inverse_[i];
  for (std::size_t i = first_.size(); i-- > 0;)
    for (std::size_t j = first_[i]; j < i; ++j) b[j] -= entry_[start_[i] + j] * b[i];
}

}  // namespace heatwork::physics
