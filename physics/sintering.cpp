#include "physics/sintering.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "physics/range.h"

namespace heatwork::physics {

namespace {

using std::numbers::pi;
using std::numbers::sqrt2;

constexpr double densest_x = 0.555;  // the polynomial falls beyond
constexpr double table_x = 0.52;     // the open stage ends at 0.509

double density_slope(double x) {
  return x * (6.0 * pi - 24.0 * sqrt2 * x);
}

// u = x^(1/3) against F on an even grid, cubic between points with exact slopes: x itself rises like F^3 and would spoil the start.
class RatioTable {
 public:
  RatioTable() {
    end_ = cell_reduced_time(table_x);
    double u = 0.0;
    for (std::size_t i = 0; i <= cells; ++i) {
      const double wanted = end_ * static_cast<double>(i) / cells;
      for (int pass = 0; pass < 4; ++pass) u += (wanted - cell_reduced_time(u * u * u)) * slope(u);
      u_[i] = u;
    }
  }

  [[nodiscard]] double end() const { return end_; }

  [[nodiscard]] double ratio(double reduced_time) const {
    const double place = reduced_time / end_ * cells;
    const std::size_t cell = std::min(static_cast<std::size_t>(place), cells - 1);
    const double s = place - static_cast<double>(cell);
    const double width = end_ / cells;
    const double u0 = u_[cell];
    const double u1 = u_[cell + 1];
    const double rise = u1 - u0;
    const double bend0 = slope(u0) * width - rise;
    const double bend1 = rise - slope(u1) * width;
    const double u = u0 + s * (rise + (1.0 - s) * (bend0 * (1.0 - s) + bend1 * s));
    return u * u * u;
  }

 private:
  static constexpr std::size_t cells = 1024;
  static double slope(double u) { return std::cbrt(3.0 * pi - 8.0 * sqrt2 * u * u * u) / 6.0; }

  double end_ = 0.0;
  std::array<double, cells + 1> u_{};
};

const RatioTable& ratio_table() {
  static const RatioTable table;
  return table;
}

}  // namespace

double frenkel_shrinkage(double surface_tension_N_per_m, double viscosity_Pa_s, double particle_radius_um, double time_s) {
  require_positive("surface_tension_N_per_m", surface_tension_N_per_m);
  require_positive("viscosity_Pa_s", viscosity_Pa_s);
  require_positive("particle_radius_um", particle_radius_um);
  require_within("time_s", time_s, 0.0, 1e12);
  return 3.0 * surface_tension_N_per_m * time_s / (8.0 * viscosity_Pa_s * particle_radius_um * 1e-6);
}

double cell_density(double x) {
  return x * x * (3.0 * pi - 8.0 * sqrt2 * x);
}

double cell_ratio(double relative_density) {
  const double densest = cell_density(densest_x);
  require_within("relative_density", relative_density, 0.0, densest);
  double low = 0.0;
  double high = densest_x;
  double x = std::sqrt(relative_density / (3.0 * pi));
  for (int pass = 0; pass < 100; ++pass) {
    const double miss = cell_density(x) - relative_density;
    (miss > 0.0 ? high : low) = x;
    double next = x - miss / density_slope(x);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - x) <= 1e-16) break;
    x = next;
  }
  return x;
}

double cell_reduced_time(double x) {
  require_within("x", x, 0.0, densest_x);
  // Integral of 6 du / (3 pi - 8 sqrt(2) u^3)^(1/3), u = x^(1/3), term by term: the integrand in x itself is singular at 0.
  const double q = 8.0 * sqrt2 / (3.0 * pi) * x;
  double coefficient = 1.0;
  double sum = 1.0;
  for (int n = 1; n < 200; ++n) {
    coefficient *= q * (n - 2.0 / 3.0) / n;
    const double term = coefficient / (3 * n + 1);
    sum += term;
    if (term < 1e-17) break;
  }
  return 6.0 * std::cbrt(x / (3.0 * pi)) * sum;
}

double cell_ratio_at(double reduced_time) {
  require_within("reduced_time", reduced_time, 0.0, ratio_table().end());
  return ratio_table().ratio(reduced_time);
}

double first_cell_edge_in_radii(double start_relative_density) {
  require_within("start_relative_density", start_relative_density, 0.2, 0.9);
  return density_slope(cell_ratio(start_relative_density)) / (3.0 * start_relative_density);
}

double reduced_time_per_heat_work(double start_relative_density, double shape_factor) {
  require_positive("shape_factor", shape_factor);
  return shape_factor / (first_cell_edge_in_radii(start_relative_density) * std::cbrt(start_relative_density));
}

double cylinder_sintering_reduced_time(double relative_density_start, double relative_density_end) {
  constexpr double touch = 0.5;  // 0.942 stands for the density at the touch
  require_within("relative_density_start", relative_density_start, 0.2, 0.9);
  require_within("relative_density_end", relative_density_end, relative_density_start, 0.942);
  const double end = relative_density_end > cell_density(touch) - 1e-4 ? touch : cell_ratio(relative_density_end);
  const double gained = cell_reduced_time(end) - cell_reduced_time(cell_ratio(relative_density_start));
  return gained / reduced_time_per_heat_work(relative_density_start, 1.0);
}

double first_linear_rate(double start_relative_density) {
  const double x = cell_ratio(start_relative_density);
  const double dx = 0.5 / first_cell_edge_in_radii(start_relative_density);
  return density_slope(x) * dx / (3.0 * start_relative_density);
}

double linear_shrinkage(double relative_density_start, double relative_density_end) {
  require_positive("relative_density_start", relative_density_start);
  require_positive("relative_density_end", relative_density_end);
  return 1.0 - std::cbrt(relative_density_start / relative_density_end);
}

double density_ratio_of_shrinkage(double along, double across) {
  require_within("along", along, -10.0, 0.999);
  require_within("across", across, -10.0, 0.999);
  return (1.0 - along) * (1.0 - across) * (1.0 - across);
}

}  // namespace heatwork::physics
