#include "physics/viscosity.h"

#include <cmath>
#include <stdexcept>

#include "physics/layer.h"
#include "physics/range.h"

namespace heatwork::physics {

namespace {

constexpr double most_crystals = 0.6;      // share at which the suspension jams
constexpr double transition_log10 = 12.0;  // glass transition, by definition
constexpr double good_firing_log10 = 5.1;  // of the porcelain, crystals and all, where 1 min fires it well
constexpr double usual_A = -3.0;

}  // namespace

void check_vft(const Vft& vft) {
  require_within("A of the viscosity law", vft.A, -20.0, 10.0);
  require_positive("B_K of the viscosity law", vft.B_K);
  require_within("T0_C of the viscosity law", vft.T0_C, -zero_celsius_K, 5000.0);
}

double log10_viscosity(const Vft& vft, double temperature_C) {
  // Below this the formula passes 10^14, then its pole, and then returns nonsense that looks like a thin melt.
  const double stiff_C = vft.T0_C + vft.B_K / (stiffest_log10_viscosity - vft.A);
  if (temperature_C <= stiff_C) return stiffest_log10_viscosity;
  return vft.A + vft.B_K / (temperature_C - vft.T0_C);
}

double viscosity_Pa_s(const Vft& vft, double temperature_C) {
  return std::pow(10.0, log10_viscosity(vft, temperature_C));
}

double temperature_of_log10_viscosity_C(const Vft& vft, double log10_Pa_s) {
  check_vft(vft);
  if (!(log10_Pa_s > vft.A && log10_Pa_s <= stiffest_log10_viscosity)) {
    throw std::domain_error("log10_Pa_s is " + std::to_string(log10_Pa_s) + "; it must be above A (" + std::to_string(vft.A) +
                            ") and at most 14");
  }
  return vft.T0_C + vft.B_K / (log10_Pa_s - vft.A);
}

Vft vft_from_dPa_s(const Vft& in_dPa_s) {
  return {in_dPa_s.A - 1.0, in_dPa_s.B_K, in_dPa_s.T0_C};
}

Vft vft_through_three_points(const std::array<ViscosityPoint, 3>& points) {
  const auto& [a, b, c] = points;
  // (y - A)(T - T0) = B is, with D = A T0 - B, linear in A, T0 and D: A T + T0 y - D = T y.
  const double t1 = b.temperature_C - a.temperature_C;
  const double y1 = b.log10_Pa_s - a.log10_Pa_s;
  const double t2 = c.temperature_C - b.temperature_C;
  const double y2 = c.log10_Pa_s - b.log10_Pa_s;
  const double r1 = b.temperature_C * b.log10_Pa_s - a.temperature_C * a.log10_Pa_s;
  const double r2 = c.temperature_C * c.log10_Pa_s - b.temperature_C * b.log10_Pa_s;
  const double determinant = t1 * y2 - t2 * y1;
  Vft vft;
  vft.A = (r1 * y2 - r2 * y1) / determinant;
  vft.T0_C = (t1 * r2 - t2 * r1) / determinant;
  vft.B_K = (a.log10_Pa_s - vft.A) * (a.temperature_C - vft.T0_C);
  bool falls = std::isfinite(vft.A) && std::isfinite(vft.T0_C) && vft.B_K > 0.0;
  for (const auto& point : points) falls = falls && point.temperature_C > vft.T0_C && point.log10_Pa_s > vft.A;
  if (!falls) {
    throw std::domain_error("the three viscosity points lie on no melt's curve; viscosity must fall with temperature, ever more slowly");
  }
  return vft;
}

Vft vft_through_two_points(double A, const ViscosityPoint& first, const ViscosityPoint& second) {
  const double y1 = first.log10_Pa_s - A;
  const double y2 = second.log10_Pa_s - A;
  const double T0_C = (y1 * first.temperature_C - y2 * second.temperature_C) / (y1 - y2);
  const Vft vft{A, y1 * (first.temperature_C - T0_C), T0_C};
  const bool falls =
      y1 > 0.0 && y2 > 0.0 && std::isfinite(T0_C) && vft.B_K > 0.0 && first.temperature_C > T0_C && second.temperature_C > T0_C;
  if (!falls) {
    throw std::domain_error(
        "the two viscosity points lie on no melt's curve with this A; viscosity must exceed 10^A and fall with temperature");
  }
  return vft;
}

double crystal_factor(double crystal_volume_share) {
  require_within("crystal_volume_share", crystal_volume_share, 0.0, 0.59);
  return std::pow(1.0 - crystal_volume_share / most_crystals, -1.5);
}

Vft vft_of_porcelain(double glass_transition_C, double firing_C, double crystal_factor) {
  require_within("crystal_factor", crystal_factor, 1.0, 1e4);
  return vft_through_two_points(usual_A, {glass_transition_C, transition_log10},
                                {firing_C, good_firing_log10 - std::log10(crystal_factor)});
}

double freezing_temperature_C(const Vft& vft, double crystal_factor) {
  return vft.T0_C + vft.B_K / (std::log10(frozen_viscosity_Pa_s) - std::log10(crystal_factor) - vft.A);
}

}  // namespace heatwork::physics
