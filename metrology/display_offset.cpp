#include "metrology/display_offset.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace heatwork::metrology {
namespace {

void check_points(std::span<const OffsetPoint> points) {
  if (points.empty()) throw std::domain_error("No temperature was checked.");
  for (const OffsetPoint& point : points) {
    if (!(point.uncertainty_K > 0.0 && std::isfinite(point.uncertainty_K)))
      throw std::domain_error("The uncertainty of a checked temperature must be above 0 K.");
    if (!(point.temperature_C > 0.0 && point.temperature_C < 2000.0))
      throw std::domain_error("A checked temperature must be above 0 and below 2000 °C.");
    if (!std::isfinite(point.offset_K)) throw std::domain_error("An offset is not a finite number.");
  }
}

OffsetAt carried_from_one(const OffsetPoint& point, double temperature_C) {
  const double share = temperature_C / point.temperature_C;
  const double proportional_K = point.offset_K * share;
  OffsetAt out{};
  out.low_K = std::min(point.offset_K, proportional_K);
  out.high_K = std::max(point.offset_K, proportional_K);
  out.offset_K = 0.5 * (out.low_K + out.high_K);
  out.uncertainty_K = std::hypot(point.uncertainty_K, rectangular_uncertainty_K(0.5 * (out.high_K - out.low_K)));
  return out;
}

}  // namespace

OffsetAt offset_at(std::span<const OffsetPoint> points, double temperature_C) {
  check_points(points);
  if (points.size() == 1) return carried_from_one(points.front(), temperature_C);
  double weights = 0.0, middle_C = 0.0, mean_K = 0.0;
  for (const OffsetPoint& point : points) {
    const double weight = 1.0 / (point.uncertainty_K * point.uncertainty_K);
    weights += weight;
    middle_C += weight * point.temperature_C;
    mean_K += weight * point.offset_K;
  }
  middle_C /= weights;
  mean_K /= weights;
  double sxx = 0.0, sxy = 0.0;
  for (const OffsetPoint& point : points) {
    const double weight = 1.0 / (point.uncertainty_K * point.uncertainty_K), apart = point.temperature_C - middle_C;
    sxx += weight * apart * apart;
    sxy += weight * apart * point.offset_K;
  }
  if (!(sxx > 1e-9)) throw std::domain_error("The checked temperatures must lie apart for a line through them.");
  const double from = temperature_C - middle_C, value = mean_K + sxy / sxx * from;
  return {value, std::sqrt(1.0 / weights + from * from / sxx), value, value};
}

double combined_uncertainty_K(std::span<const double> parts_K) {
  double squares = 0.0;
  for (const double part : parts_K) squares += part * part;
  return std::sqrt(squares);
}

double rectangular_uncertainty_K(double half_width_K) {
  return half_width_K / std::sqrt(3.0);
}

double effective_degrees_of_freedom(std::span<const double> parts_K, std::span<const double> degrees) {
  if (parts_K.size() != degrees.size() || parts_K.empty())
    throw std::domain_error("Each part of the uncertainty needs its degrees of freedom.");
  double fourths = 0.0;
  for (std::size_t i = 0; i < parts_K.size(); ++i) {
    if (!(degrees[i] > 0.0)) throw std::domain_error("Degrees of freedom must be above 0; infinite where a value is exact.");
    fourths += std::pow(parts_K[i], 4) / degrees[i];
  }
  return std::pow(combined_uncertainty_K(parts_K), 4) / fourths;
}

double correction_to_key_K(KeyedCorrection what, double keyed_now_K, double offset_K) {
  return what == KeyedCorrection::added_to_display ? keyed_now_K - offset_K : keyed_now_K + offset_K;
}

double true_temperature_C(KeyedCorrection what, double set_C, double offset_with_keyed_now_K, double keyed_now_K, double keyed_K) {
  const double more_K = keyed_K - keyed_now_K;
  return set_C - offset_with_keyed_now_K + (what == KeyedCorrection::added_to_display ? -more_K : more_K);
}

}  // namespace heatwork::metrology
