#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "physics/layered_elastic.h"

namespace heatwork::physics {

namespace {

constexpr double lowest_biot = 0.001, highest_biot = 1000.0;

void check(double biot) {
  if (!(biot >= lowest_biot && biot <= highest_biot))
    throw std::domain_error("The Biot number is " + std::to_string(biot) + ", but must be from 0.001 to 1000.");
}

// Root of d tan d = Bi in branch n: Newton from within on d sin d - Bi cos d, kept in its branch by halving.
double root(double biot, int n) {
  double low = n * std::numbers::pi, high = low + 0.5 * std::numbers::pi, d = 0.5 * (low + high);
  for (int i = 0; i < 200; ++i) {
    const double value = d * std::sin(d) - biot * std::cos(d), slope = (1.0 + biot) * std::sin(d) + d * std::cos(d);
    ((n % 2 == 0 ? value : -value) > 0.0 ? high : low) = d;
    double next = d - value / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - d) <= 1e-15 * next) return next;
    d = next;
  }
  return d;
}

}  // namespace

double shock_stress(double biot, double fourier) {
  constexpr int most_roots = 5000;
  constexpr double spent = 40.0;  // exponent beyond which a mode is gone
  check(biot);
  if (!(fourier >= 0.0)) throw std::domain_error("The Fourier number is " + std::to_string(fourier) + ", but must be from 0 up.");
  double sum = 0.0;
  for (int n = 0; n < most_roots; ++n) {
    const double d = root(biot, n);
    if (d * d * fourier > spent) break;
    const double weight = 4.0 * std::sin(d) / (2.0 * d + std::sin(2.0 * d));
    sum += weight * std::exp(-d * d * fourier) * (std::sin(d) / d - std::cos(d));
  }
  return sum;
}

ThermalShock thermal_shock(double biot) {
  check(biot);
  const double ratio = 0.5 * (std::sqrt(5.0) - 1.0);
  double low = std::log(1e-6), high = std::log(10.0);
  const auto at = [&](double logarithm) { return shock_stress(biot, std::exp(logarithm)); };
  double left = high - ratio * (high - low), right = low + ratio * (high - low), at_left = at(left), at_right = at(right);
  while (high - low > 1e-6) {  // golden section: the stress rises once and falls once
    if (at_left > at_right) {
      high = right;
      right = left;
      at_right = at_left;
      left = high - ratio * (high - low);
      at_left = at(left);
    } else {
      low = left;
      left = right;
      at_left = at_right;
      right = low + ratio * (high - low);
      at_right = at(right);
    }
  }
  const double fourier = std::exp(0.5 * (low + high));
  return {shock_stress(biot, fourier), fourier};
}

}  // namespace heatwork::physics
