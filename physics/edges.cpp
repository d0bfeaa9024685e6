#include "physics/edges.h"

#include "physics/levelling.h"
#include "physics/range.h"

namespace heatwork::physics {

namespace {

constexpr double um_per_m = 1e6;

// Weight over twice the viscosity times L^4 / h^2, per unit of fluidity [m Pa].
double cantilever_drive(double length_mm, double thickness_mm, double density_kg_per_m3) {
  require_positive("length_mm", length_mm);
  require_positive("thickness_mm", thickness_mm);
  require_positive("density_kg_per_m3", density_kg_per_m3);
  const double length_m = length_mm * 1e-3;
  const double slenderness = length_mm / thickness_mm;
  return 0.5 * density_kg_per_m3 * standard_gravity_m_per_s2 * length_m * length_m * slenderness * slenderness;
}

double bonded_drive(double thickness_mm, double density_kg_per_m3) {
  require_positive("thickness_mm", thickness_mm);
  require_positive("density_kg_per_m3", density_kg_per_m3);
  const double thickness_m = thickness_mm * 1e-3;
  return 0.5 * density_kg_per_m3 * standard_gravity_m_per_s2 * thickness_m * thickness_m;
}

}  // namespace

double rounding_um(double surface_tension_N_per_m, double fluidity_per_Pa) {
  require_positive("surface_tension_N_per_m", surface_tension_N_per_m);
  return surface_tension_N_per_m * fluidity_per_Pa * um_per_m;
}

double cantilever_tip_speed_um_per_s(double length_mm, double thickness_mm, double density_kg_per_m3, double viscosity_Pa_s) {
  require_positive("viscosity_Pa_s", viscosity_Pa_s);
  return cantilever_drive(length_mm, thickness_mm, density_kg_per_m3) / viscosity_Pa_s * um_per_m;
}

double cantilever_sag_um(double length_mm, double thickness_mm, double density_kg_per_m3, double fluidity_per_Pa) {
  return cantilever_drive(length_mm, thickness_mm, density_kg_per_m3) * fluidity_per_Pa * um_per_m;
}

double bonded_layer_speed_um_per_s(double thickness_mm, double density_kg_per_m3, double viscosity_Pa_s) {
  require_positive("viscosity_Pa_s", viscosity_Pa_s);
  return bonded_drive(thickness_mm, density_kg_per_m3) / viscosity_Pa_s * um_per_m;
}

double bonded_layer_run_um(double thickness_mm, double density_kg_per_m3, double fluidity_per_Pa) {
  return bonded_drive(thickness_mm, density_kg_per_m3) * fluidity_per_Pa * um_per_m;
}

}  // namespace heatwork::physics
