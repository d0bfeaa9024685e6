#include "metrology/straight_line.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace heatwork::metrology {

StraightLine fit_straight_line(std::span<const double> x, std::span<const double> y, double origin) {
  if (x.size() != y.size()) throw std::domain_error("x and y must have the same number of entries.");
  if (x.size() < 3) throw std::domain_error("A line with its uncertainty needs at least 3 points.");
  const auto n = static_cast<double>(x.size());
  double mean_x = 0.0, mean_y = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    mean_x += (x[i] - origin) / n;
    mean_y += y[i] / n;
  }
  double sxx = 0.0, sxy = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double dx = x[i] - origin - mean_x;
    sxx += dx * dx;
    sxy += dx * (y[i] - mean_y);
  }
  if (!(sxx > 0.0)) throw std::domain_error("All points stand at one x: no slope follows from them.");
  StraightLine out{};
  out.origin = origin;
  out.slope = sxy / sxx;
  out.intercept = mean_y - out.slope * mean_x;
  double squares = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double miss = y[i] - mean_y - out.slope * (x[i] - origin - mean_x);
    squares += miss * miss;
  }
  out.residual_sd = std::sqrt(squares / (n - 2.0));
  out.slope_u = out.residual_sd / std::sqrt(sxx);
  out.intercept_u = out.residual_sd * std::sqrt(1.0 / n + mean_x * mean_x / sxx);
  out.correlation = -mean_x / std::sqrt(sxx / n + mean_x * mean_x);
  return out;
}

Predicted line_at(const StraightLine& line, double x) {
  const double from = x - line.origin;
  const double square = line.intercept_u * line.intercept_u + from * from * line.slope_u * line.slope_u +
                        2.0 * from * line.correlation * line.intercept_u * line.slope_u;
  return {line.intercept + line.slope * from, std::sqrt(std::max(square, 0.0))};
}

}  // namespace heatwork::metrology
