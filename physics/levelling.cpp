#include "physics/levelling.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/range.h"

namespace heatwork::physics {

namespace {

// [sinh(y) - y] / [cosh(y) + 1 + y^2 / 2], y = 2 k h: how freely a film of finite thickness flows, 1 when deep.
double depth_factor(double y) {
  if (y > 600.0) return 1.0;
  const double y2 = y * y;
  // Below 0.3 the difference would lose its digits.
  const double numerator = y < 0.3 ? y * y2 / 6.0 * (1.0 + y2 / 20.0 * (1.0 + y2 / 42.0 * (1.0 + y2 / 72.0))) : std::sinh(y) - y;
  return numerator / (std::cosh(y) + 1.0 + 0.5 * y2);
}

double time_constant(double wavelength_um, double thickness_um, double viscosity_Pa_s, double surface_tension_N_per_m,
                     double weight_N_per_m3) {
  require_positive("wavelength_um", wavelength_um);
  require_positive("thickness_um", thickness_um);
  require_positive("viscosity_Pa_s", viscosity_Pa_s);
  require_positive("surface_tension_N_per_m", surface_tension_N_per_m);
  const double k = 2.0 * std::numbers::pi / (wavelength_um * 1e-6);
  const double drive_Pa = surface_tension_N_per_m * k + weight_N_per_m3 / k;
  return 2.0 * viscosity_Pa_s / (drive_Pa * depth_factor(2.0 * k * thickness_um * 1e-6));
}

}  // namespace

double levelling_time_constant_s(double wavelength_um, double thickness_um, double viscosity_Pa_s, double surface_tension_N_per_m) {
  return time_constant(wavelength_um, thickness_um, viscosity_Pa_s, surface_tension_N_per_m, 0.0);
}

double levelling_time_constant_with_gravity_s(double wavelength_um, double thickness_um, double viscosity_Pa_s,
                                              double surface_tension_N_per_m, double density_kg_per_m3) {
  require_positive("density_kg_per_m3", density_kg_per_m3);
  return time_constant(wavelength_um, thickness_um, viscosity_Pa_s, surface_tension_N_per_m, density_kg_per_m3 * standard_gravity_m_per_s2);
}

double levelling_deep_s(double wavelength_um, double viscosity_Pa_s, double surface_tension_N_per_m) {
  require_positive("wavelength_um", wavelength_um);
  require_positive("viscosity_Pa_s", viscosity_Pa_s);
  require_positive("surface_tension_N_per_m", surface_tension_N_per_m);
  return viscosity_Pa_s * wavelength_um * 1e-6 / (std::numbers::pi * surface_tension_N_per_m);
}

double levelling_thin_s(double wavelength_um, double thickness_um, double viscosity_Pa_s, double surface_tension_N_per_m) {
  require_positive("thickness_um", thickness_um);
  const double slenderness = wavelength_um / thickness_um;
  const double pi3 = std::pow(std::numbers::pi, 3);
  return levelling_deep_s(wavelength_um, viscosity_Pa_s, surface_tension_N_per_m) * 3.0 * slenderness * slenderness * slenderness /
         (16.0 * pi3);
}

double levelling_per_fluidity_Pa(double wavelength_um, double thickness_um, double surface_tension_N_per_m) {
  return 1.0 / levelling_time_constant_s(wavelength_um, thickness_um, 1.0, surface_tension_N_per_m);
}

double levelled_ra_um(std::span<const RoughnessBand> bands, double thickness_um, double surface_tension_N_per_m, double fluidity_per_Pa,
                      double floor_um) {
  require_within("fluidity_per_Pa", fluidity_per_Pa, 0.0, 1e12);
  require_within("floor_um", floor_um, 0.0, 1e6);
  double square = 0.0;
  for (const RoughnessBand& band : bands) {
    require_within("ra_um", band.ra_um, 0.0, 1e6);
    const double exponent = levelling_per_fluidity_Pa(band.wavelength_um, thickness_um, surface_tension_N_per_m) * fluidity_per_Pa;
    square += band.ra_um * band.ra_um * std::exp(-2.0 * exponent);
  }
  return std::max(std::sqrt(square), floor_um);
}

}  // namespace heatwork::physics
