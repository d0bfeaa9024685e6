#include "physics/arrhenius.h"

#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <string>
#include <vector>

#include "physics/range.h"

namespace heatwork::physics {

namespace {

constexpr double short_change = 0.05;  // of E/RT: below it the Gauss rule errs less than the difference of two integrals

double energy_over_R_K(double energy_kJ_per_mol) {
  return energy_kJ_per_mol * 1e3 / gas_constant_J_per_mol_K;
}

// Integral of exp(-E / (R T)) dT from 0 to T, times exp(x) so that it neither underflows nor loses digits [K].
double scaled_ramp_integral_K(double x, double temperature_K) {
  return temperature_K * (1.0 - x * scaled_exponential_integral(x));
}

// Least-squares slope of y on x.
double slope(std::span<const double> x, std::span<const double> y) {
  double mean_x = 0.0;
  double mean_y = 0.0;
  const double count = static_cast<double>(x.size());
  for (std::size_t i = 0; i < x.size(); ++i) {
    mean_x += x[i] / count;
    mean_y += y[i] / count;
  }
  double top = 0.0;
  double bottom = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    top += (x[i] - mean_x) * (y[i] - mean_y);
    bottom += (x[i] - mean_x) * (x[i] - mean_x);
  }
  if (!(bottom > 0.0)) throw std::invalid_argument("peaks_K are all equal; at least two different peaks are needed");
  return top / bottom;
}

template <typename Ordinate>
double peak_slope_K(std::span<const double> rates_K_per_s, std::span<const double> peaks_K, Ordinate ordinate) {
  if (rates_K_per_s.size() != peaks_K.size() || peaks_K.size() < 2) {
    throw std::invalid_argument("rates_K_per_s and peaks_K have " + std::to_string(rates_K_per_s.size()) + " and " +
                                std::to_string(peaks_K.size()) + " values; both must have the same number, at least 2");
  }
  std::vector<double> x;
  std::vector<double> y;
  for (std::size_t i = 0; i < peaks_K.size(); ++i) {
    require_positive("rates_K_per_s", rates_K_per_s[i]);
    require_positive("peaks_K", peaks_K[i]);
    x.push_back(1.0 / peaks_K[i]);
    y.push_back(ordinate(rates_K_per_s[i], peaks_K[i]));
  }
  return slope(x, y);
}

// Root of a function that rises through zero between two temperatures.
template <typename Function>
double bisect_K(Function function, double low_K, double high_K) {
  for (int pass = 0; pass < 80; ++pass) {
    const double middle_K = 0.5 * (low_K + high_K);
    (function(middle_K) > 0.0 ? high_K : low_K) = middle_K;
  }
  return 0.5 * (low_K + high_K);
}

constexpr double coldest_K = 150.0;
constexpr double hottest_K = 4000.0;

}  // namespace

double transformed_fraction(double z, double exponent) {
  if (z == std::numeric_limits<double>::infinity()) return 1.0;
  return -std::expm1(-std::pow(z, exponent));
}

double arrhenius_rate_per_s(const CrystallisationStep& step, double temperature_K) {
  return step.rate_per_s * std::exp(-energy_over_R_K(step.energy_kJ_per_mol) / temperature_K);
}

double scaled_exponential_integral(double x) {
  require_positive("x", x);
  if (x < 1.0) {
    double sum = -std::numbers::egamma - std::log(x);
    double term = -1.0;
    for (int n = 1; n < 60; ++n) {
      term *= -x / n;
      sum += term / n;
      if (std::abs(term) < 1e-18) break;
    }
    return std::exp(x) * sum;
  }
  // Continued fraction 1/(x+1-1/(x+3-4/(x+5-...))), by the modified Lentz method.
  double b = x + 1.0;
  double c = std::numeric_limits<double>::infinity();
  double d = 1.0 / b;
  double fraction = d;
  for (int n = 1; n < 500; ++n) {
    const double a = -static_cast<double>(n) * n;
    b += 2.0;
    d = 1.0 / (a * d + b);
    c = b + a / c;
    const double factor = c * d;
    fraction *= factor;
    if (std::abs(factor - 1.0) < 1e-16) break;
  }
  return fraction;
}

double arrhenius_integral_s(double energy_kJ_per_mol, double duration_s, double first_K, double last_K) {
  const double energy_K = energy_over_R_K(energy_kJ_per_mol);
  const double first_x = energy_K / first_K;
  const double last_x = energy_K / last_K;
  if (first_K == last_K) return duration_s * std::exp(-first_x);
  if (std::abs(first_x - last_x) <= short_change) {
    constexpr double offset = 0.38729833462074168852;
    const double middle_K = 0.5 * (first_K + last_K);
    const double reach_K = offset * (last_K - first_K);
    return duration_s * (5.0 / 18.0 * (std::exp(-energy_K / (middle_K - reach_K)) + std::exp(-energy_K / (middle_K + reach_K))) +
                         8.0 / 18.0 * std::exp(-energy_K / middle_K));
  }
  const double difference_K =
      std::exp(-last_x) * scaled_ramp_integral_K(last_x, last_K) - std::exp(-first_x) * scaled_ramp_integral_K(first_x, first_K);
  return duration_s * difference_K / (last_K - first_K);
}

double ramp_argument(const CrystallisationStep& step, double rate_K_per_s, double temperature_K) {
  require_positive("rate_K_per_s", rate_K_per_s);
  require_positive("temperature_K", temperature_K);
  const double x = energy_over_R_K(step.energy_kJ_per_mol) / temperature_K;
  return step.rate_per_s / rate_K_per_s * std::exp(-x) * scaled_ramp_integral_K(x, temperature_K);
}

double peak_temperature_K(const CrystallisationStep& step, double rate_K_per_s) {
  require_positive("rate_K_per_s", rate_K_per_s);
  // d ln(dX/dt) / dT = 0: n z^n k/(b z) = (n - 1) k/(b z) + E/(R T^2); the left wins above the peak.
  const double energy_K = energy_over_R_K(step.energy_kJ_per_mol);
  const auto past_peak = [&](double temperature_K) {
    const double z = ramp_argument(step, rate_K_per_s, temperature_K);
    const double k = arrhenius_rate_per_s(step, temperature_K) / rate_K_per_s;
    const double n = step.exponent;
    return k * (n * std::pow(z, n) - (n - 1.0)) - z * energy_K / (temperature_K * temperature_K);
  };
  return bisect_K(past_peak, coldest_K, hottest_K);
}

double ramp_temperature_of_fraction_K(const CrystallisationStep& step, double rate_K_per_s, double fraction) {
  require_within("fraction", fraction, 1e-12, 1.0 - 1e-12);
  const double wanted = std::pow(-std::log1p(-fraction), 1.0 / step.exponent);
  return bisect_K([&](double temperature_K) { return ramp_argument(step, rate_K_per_s, temperature_K) - wanted; }, coldest_K, hottest_K);
}

double rate_from_anchor_per_s(double energy_kJ_per_mol, double peak_K, double rate_K_per_s) {
  require_positive("energy_kJ_per_mol", energy_kJ_per_mol);
  require_positive("peak_K", peak_K);
  require_positive("rate_K_per_s", rate_K_per_s);
  const double energy_K = energy_over_R_K(energy_kJ_per_mol);
  return energy_K * rate_K_per_s / (peak_K * peak_K) * std::exp(energy_K / peak_K);
}

double anchor_of_rate_K(const CrystallisationStep& step, double rate_K_per_s) {
  require_positive("rate_per_s", step.rate_per_s);
  // The rate that an anchor asks for falls as the anchor rises.
  return bisect_K([&](double anchor_K) { return step.rate_per_s - rate_from_anchor_per_s(step.energy_kJ_per_mol, anchor_K, rate_K_per_s); },
                  coldest_K, hottest_K);
}

double kissinger_energy_kJ_per_mol(std::span<const double> rates_K_per_s, std::span<const double> peaks_K) {
  const auto ordinate = [](double rate, double peak) { return std::log(rate / (peak * peak)); };
  return -peak_slope_K(rates_K_per_s, peaks_K, ordinate) * gas_constant_J_per_mol_K * 1e-3;
}

double ozawa_energy_kJ_per_mol(std::span<const double> rates_K_per_s, std::span<const double> peaks_K) {
  const auto ordinate = [](double rate, double) { return std::log(rate); };
  return -peak_slope_K(rates_K_per_s, peaks_K, ordinate) * gas_constant_J_per_mol_K * 1e-3 / 1.052;
}

double isothermal_time_s(const CrystallisationStep& step, double temperature_K, double fraction) {
  require_within("fraction", fraction, 1e-12, 1.0 - 1e-12);
  require_positive("temperature_K", temperature_K);
  return std::pow(-std::log1p(-fraction), 1.0 / step.exponent) / arrhenius_rate_per_s(step, temperature_K);
}

}  // namespace heatwork::physics
