#include "physics/pores.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/range.h"

namespace heatwork::physics {

namespace {

constexpr double first_sealed_porosity = 0.14;
constexpr double sealing_width = 0.09;

// Integral of dy / (1 + y^3) from 0.
double cubic_integral(double y) {
  constexpr double root3 = std::numbers::sqrt3;
  return std::log1p(y) / 3.0 - std::log(y * (y - 1.0) + 1.0) / 6.0 + (std::atan((2.0 * y - 1.0) / root3) + std::numbers::pi / 6.0) / root3;
}

}  // namespace

double closed_pore_rate_m_per_s(double radius_m, double viscosity_Pa_s, double surface_tension_N_per_m, double chamber_Pa, double gas_Pa,
                                double porosity) {
  require_positive("radius_m", radius_m);
  require_positive("viscosity_Pa_s", viscosity_Pa_s);
  require_within("porosity", porosity, 0.0, 0.999999);
  const double closing_Pa = 2.0 * surface_tension_N_per_m / radius_m + chamber_Pa - gas_Pa;
  return -radius_m / (4.0 * viscosity_Pa_s) * closing_Pa / (1.0 - porosity);
}

double pore_gas_Pa(double sealed_Pa, double radius_over_sealed, double temperature_K, double sealed_temperature_K) {
  require_within("sealed_Pa", sealed_Pa, 0.0, 1e8);
  require_positive("radius_over_sealed", radius_over_sealed);
  require_positive("temperature_K", temperature_K);
  require_positive("sealed_temperature_K", sealed_temperature_K);
  return sealed_Pa / (radius_over_sealed * radius_over_sealed * radius_over_sealed) * temperature_K / sealed_temperature_K;
}

double pore_equilibrium_volume_ratio(double radius_um, double sealed_Pa, double chamber_Pa, double surface_tension_N_per_m) {
  require_positive("radius_um", radius_um);
  require_positive("surface_tension_N_per_m", surface_tension_N_per_m);
  require_within("sealed_Pa", sealed_Pa, 0.0, 1e8);
  require_within("chamber_Pa", chamber_Pa, 0.0, 1e8);
  const double capillary_Pa = 2.0 * surface_tension_N_per_m / (radius_um * 1e-6);
  // p_chamber s^3 + capillary s^2 = p_sealed has one root s >= 0. Newton from above, where the left side is convex, cannot miss it.
  double s = std::sqrt(sealed_Pa / capillary_Pa);
  for (int pass = 0; pass < 200; ++pass) {
    const double slope = s * (3.0 * chamber_Pa * s + 2.0 * capillary_Pa);
    if (slope <= 0.0) break;
    const double next = s - (s * s * (chamber_Pa * s + capillary_Pa) - sealed_Pa) / slope;
    if (std::abs(next - s) <= 1e-15 * s) break;
    s = next;
  }
  return s * s * s;
}

double pore_closure_reduced_time(double porosity_start, double porosity_end) {
  require_within("porosity_start", porosity_start, 1e-9, 0.999999);
  require_within("porosity_end", porosity_end, 0.0, porosity_start);
  // da/dt = -gamma (1 + v) / (2 eta) with v = v0 (a/a0)^3 void per solid.
  const double b = std::cbrt(void_per_solid(porosity_start));
  const double y_end = std::cbrt(void_per_solid(porosity_end));
  return 2.0 * (cubic_integral(b) - cubic_integral(y_end)) / b;
}

double sealed_fraction(double open_porosity) {
  const double u = std::clamp((first_sealed_porosity - open_porosity) / sealing_width, 0.0, 1.0);
  return u * u * (3.0 - 2.0 * u);
}

double porosity_of_sealed_fraction(double fraction) {
  require_within("fraction", fraction, 0.0, 1.0);
  // u^2 (3 - 2 u) = f is the triple-angle identity: u = 1/2 - sin(asin(1 - 2 f) / 3).
  const double u = 0.5 - std::sin(std::asin(1.0 - 2.0 * fraction) / 3.0);
  return first_sealed_porosity - sealing_width * u;
}

double void_per_solid(double porosity) {
  return porosity / (1.0 - porosity);
}

double porosity_of_void(double void_per_solid) {
  return void_per_solid / (1.0 + void_per_solid);
}

double pore_scattering_per_mm(double porosity, double pore_radius_um) {
  require_within("porosity", porosity, 0.0, 1.0);
  require_positive("pore_radius_um", pore_radius_um);
  return 1.5 * porosity / (pore_radius_um * 1e-3);
}

}  // namespace heatwork::physics
