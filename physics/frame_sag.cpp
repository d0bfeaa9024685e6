#include "physics/frame_sag.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace heatwork::physics {
namespace {

constexpr double boltzmann_J_per_K = 1.380649e-23;
/// How diffusion through the lattice falls off over solidus / T: gold's 15.9, platinum's 16.4, copper's and palladium's 17.5,
/// silver's 18.0, nickel's 19.8. source: brown-ashby-1980
constexpr double lattice_over_melting = 15.9;
/// Diffusion along boundaries times their width: nickel's, faster above 0.65 of the melting point than copper's, silver's, aluminium's or
/// lead's at the same share of theirs. [m3/s] source: frost-ashby-1982
constexpr double boundary_m3_per_s = 3.5e-15, boundary_over_melting = 8.0;
/// Of an atom: gold's, the largest of the metals such alloys are made of. [m3] source: field-memory
constexpr double atom_m3 = 1.7e-29;
/// Of tension on grains of equal size in all directions. source: frost-ashby-1982
constexpr double equiaxed = 42;

}  // namespace

double diffusional_creep_per_Pa_s(double temperature_K, const CastAlloy& alloy) {
  if (!(temperature_K >= 300 && temperature_K <= alloy.solidus_K && alloy.grain_m > 0 && alloy.diffusion_m2_per_s > 0))
    throw std::domain_error("Creep of an alloy is known from 300 K to its solidus, with a diffusion and grains larger than 0.");
  const double melting = alloy.solidus_K / temperature_K;
  const double lattice_m2_per_s = alloy.diffusion_m2_per_s * std::exp(-lattice_over_melting * (melting - 1));
  const double boundary = boundary_m3_per_s * std::exp(-boundary_over_melting * melting);
  const double both_m2_per_s = lattice_m2_per_s + std::numbers::pi * boundary / alloy.grain_m;
  return equiaxed * atom_m3 * both_m2_per_s / (boltzmann_J_per_K * temperature_K * alloy.grain_m * alloy.grain_m);
}

double span_sag_m(const Span& span, double creep_per_Pa) {
  const double second_moment_m4 = std::numbers::pi * std::pow(span.radius_m, 4) / 4;
  return 5 * span.weight_N_per_m * std::pow(span.length_m, 4) / (384 * second_moment_m4) * creep_per_Pa;
}

}  // namespace heatwork::physics
