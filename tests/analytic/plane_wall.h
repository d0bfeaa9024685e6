// Exact solutions of conduction for the tests: plane wall and sphere behind a film, plate heated at a steady rate.
#pragma once

#include <cmath>
#include <numbers>
#include <vector>

namespace heatwork::analytic {

/// Roots z tan z = Bi of the plane wall, by halving.
inline std::vector<double> wall_roots(double biot, int count = 200) {
  std::vector<double> roots;
  for (int k = 0; k < count; ++k) {
    double low = k * std::numbers::pi + 1e-12, high = (k + 0.5) * std::numbers::pi - 1e-12;
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (low + high);
      (middle * std::tan(middle) > biot ? high : low) = middle;
    }
    roots.push_back(0.5 * (low + high));
  }
  return roots;
}

/// Share of the first difference left at x/L (0 middle, 1 face), Fo = a t / L2 (Carslaw and Jaeger 1959, 3.11).
inline double wall_theta(const std::vector<double>& roots, double x, double fourier) {
  double sum = 0;
  for (double z : roots) sum += 4 * std::sin(z) / (2 * z + std::sin(2 * z)) * std::exp(-z * z * fourier) * std::cos(z * x);
  return sum;
}

/// Lag behind surroundings that rise steadily by one kelvin a unit of Fo: Duhamel's sum of the step response.
inline double wall_ramp_lag(const std::vector<double>& roots, double x, double fourier) {
  double sum = 0;
  for (double z : roots) {
    sum += 4 * std::sin(z) / (2 * z + std::sin(2 * z)) * std::cos(z * x) * (1 - std::exp(-z * z * fourier)) / (z * z);
  }
  return sum;
}

/// Sphere behind a film: share left at r/R (1 - z cot z = Bi; Carslaw and Jaeger 1959, 9.4).
inline double sphere_theta(double biot, double x, double fourier) {
  double sum = 0;
  for (int k = 0; k < 200; ++k) {
    double low = k * std::numbers::pi + 1e-9, high = (k + 1) * std::numbers::pi - 1e-9;
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (low + high);
      (1 - middle / std::tan(middle) > biot ? high : low) = middle;
    }
    const double z = 0.5 * (low + high);
    const double shape = x == 0 ? 1.0 : std::sin(z * x) / (z * x);
    sum += 4 * (std::sin(z) - z * std::cos(z)) / (2 * z - std::sin(2 * z)) * std::exp(-z * z * fourier) * shape;
  }
  return sum;
}

}  // namespace heatwork::analytic
