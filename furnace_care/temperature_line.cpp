#include "furnace_care/temperature_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "metrology/display_offset.h"

namespace heatwork::furnace_care {
namespace {

constexpr double apart_K = 20.0;  ///< closer together they tell no slope. source: chosen-here
constexpr double lowest_C = 20, highest_C = 1800;

using Rows = std::vector<std::vector<double>>;

/// Lower triangle L of a symmetric positive matrix, V = L L'.
Rows triangle_of(const std::vector<ErrorFound>& found) {
  const std::size_t n = found.size();
  Rows lower(n, std::vector<double>(n, 0.0));
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = found[i].means == found[j].means ? found[i].shared_u_K * found[j].shared_u_K : 0.0;
      if (i == j) sum += found[i].own_u_K * found[i].own_u_K;
      for (std::size_t k = 0; k < j; ++k) sum -= lower[i][k] * lower[j][k];
      if (i != j) {
        lower[i][j] = sum / lower[j][j];
      } else if (sum > 0) {
        lower[i][i] = std::sqrt(sum);
      } else {
        throw std::domain_error("The uncertainty of an error found must be above 0 K.");
      }
    }
  return lower;
}

/// L^-1 b: values freed of their correlation.
std::vector<double> freed(const Rows& lower, std::vector<double> values) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) values[i] -= lower[i][k] * values[k];
    values[i] /= lower[i][i];
  }
  return values;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

/// Level at a middle temperature and slope, with their covariance.
struct Fit {
  double middle_C = 0, level_K = 0, slope = 0;
  double level_var = 0, slope_var = 0, both = 0;
  double chi_square = 0;
  int freedom = 0;
};

Fit fit(const std::vector<ErrorFound>& found, bool with_slope) {
  Fit out;
  for (const ErrorFound& each : found) out.middle_C += each.temperature_C / static_cast<double>(found.size());
  std::vector<double> ones, away, errors;
  for (const ErrorFound& each : found) {
    ones.push_back(1);
    away.push_back(each.temperature_C - out.middle_C);
    errors.push_back(each.error_K);
  }
  const Rows lower = triangle_of(found);
  ones = freed(lower, ones);
  away = freed(lower, away);
  errors = freed(lower, errors);
  const double a = dot(ones, ones), b = with_slope ? dot(ones, away) : 0, c = with_slope ? dot(away, away) : 1;
  const double p = dot(ones, errors), q = with_slope ? dot(away, errors) : 0, det = a * c - b * b;
  out.level_K = (c * p - b * q) / det;
  out.slope = with_slope ? (a * q - b * p) / det : 0;
  out.level_var = c / det;
  out.slope_var = with_slope ? a / det : 0;
  out.both = with_slope ? -b / det : 0;
  for (std::size_t i = 0; i < errors.size(); ++i) {
    const double left = errors[i] - out.level_K * ones[i] - out.slope * away[i];
    out.chi_square += left * left;
  }
  out.freedom = static_cast<int>(found.size()) - (with_slope ? 2 : 1);
  return out;
}

double agreement_of(const Fit& fit) {
  return fit.freedom > 0 ? std::sqrt(fit.chi_square / fit.freedom) : 0;
}

}  // namespace

ErrorFound found_with(double temperature_C, double error_K, const Budget& budget, int means) {
  return {temperature_C, error_K, combined_K(budget, false), combined_K(budget, true), means};
}

ErrorLine line_of(std::vector<ErrorFound> found) {
  if (found.empty()) throw std::domain_error("No temperature was checked.");
  const auto [low, high] =
      std::minmax_element(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.temperature_C < b.temperature_C; });
  ErrorLine line;
  const double low_C = low->temperature_C, high_C = high->temperature_C;
  line.is_line = high_C - low_C >= apart_K;
  line.found = std::move(found);
  const Fit done = fit(line.found, line.is_line);
  line.slope_K_per_100K = 100 * done.slope;
  line.agreement = agreement_of(done);
  line.sentence = line.is_line
                      ? fmt::format("A line through {} readings from {:.0f} to {:.0f} °C.", line.found.size(), low_C, high_C)
                      : fmt::format("One temperature was checked, {:.0f} °C; elsewhere the error lies between the same and in proportion.",
                                    done.middle_C);
  return line;
}

ErrorAt ErrorLine::at(double temperature_C) const {
  if (!(temperature_C >= lowest_C && temperature_C <= highest_C))
    throw std::domain_error(fmt::format("An error is told for 20 to 1800 °C, not for {:.0f} °C.", temperature_C));
  const Fit done = fit(found, is_line);
  const double wider = std::max(1.0, agreement_of(done));
  if (!is_line) {
    const std::array<metrology::OffsetPoint, 1> point{{{done.middle_C, done.level_K, wider * std::sqrt(done.level_var)}}};
    const auto carried = metrology::offset_at(point, temperature_C);
    return {carried.offset_K, carried.uncertainty_K, carried.low_K, carried.high_K};
  }
  const double away = temperature_C - done.middle_C;
  const double error_K = done.level_K + done.slope * away;
  const double variance = done.level_var + 2 * away * done.both + away * away * done.slope_var;
  return {error_K, wider * std::sqrt(std::max(0.0, variance)), error_K, error_K};
}

}  // namespace heatwork::furnace_care
