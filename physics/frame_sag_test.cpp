#include "physics/frame_sag.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace heatwork::physics {
namespace {

constexpr double k_J_per_K = 1.380649e-23, R_J_per_molK = 8.314462618;

/// A pure metal as a map of its creep has it (Frost and Ashby 1982, from memory).
struct Metal {
  const char* name;
  double melts_K, atom_m3, lattice_m2_per_s, lattice_J_per_mol, boundary_m3_per_s, boundary_J_per_mol;
};
constexpr Metal metals[] = {
    {"nickel", 1726, 1.09e-29, 1.9e-4, 284e3, 3.5e-15, 115e3},
    {"copper", 1356, 1.18e-29, 2.0e-5, 197e3, 5.0e-15, 104e3},
    {"silver", 1234, 1.71e-29, 4.4e-5, 185e3, 4.5e-15, 90e3},
};

double creep_of(const Metal& metal, double temperature_K, double grain_m) {
  const double lattice = metal.lattice_m2_per_s * std::exp(-metal.lattice_J_per_mol / (R_J_per_molK * temperature_K));
  const double boundary = metal.boundary_m3_per_s * std::exp(-metal.boundary_J_per_mol / (R_J_per_molK * temperature_K));
  return 42 * metal.atom_m3 / (k_J_per_K * temperature_K * grain_m * grain_m) * (lattice + std::numbers::pi * boundary / grain_m);
}

TEST(FrameSag, CreepIsABoundOfMetalsWhoseCreepIsMapped) {
  for (const Metal& metal : metals)
    for (const double share : {0.65, 0.75, 0.85, 0.95})
      for (const double grain_m : {20e-6, 200e-6}) {
        const double melting_m2_per_s = metal.lattice_m2_per_s * std::exp(-metal.lattice_J_per_mol / (R_J_per_molK * metal.melts_K));
        const double own = creep_of(metal, share * metal.melts_K, grain_m);
        const double bound = diffusional_creep_per_Pa_s(share * metal.melts_K, {metal.melts_K, melting_m2_per_s, grain_m});
        EXPECT_GE(bound, 0.99 * own) << metal.name << " at " << share;
        EXPECT_LE(bound, 12 * own) << metal.name << " at " << share << ": a bound that loose tells nothing";
      }
}

TEST(FrameSag, PowerLawCreepAddsNothingAtTheStressOfAFramesOwnWeight) {
  // Nickel: A = 3.0e6, n = 4.6, shear modulus 78.9 GPa falling by 0.64 of itself over the melting point; 50 kPa, grains of 30 µm.
  const Metal& nickel = metals[0];
  const double T_K = 0.85 * nickel.melts_K, stress_Pa = 50e3;
  const double shear_Pa = 78.9e9 * (1 - 0.64 * (T_K - 300) / nickel.melts_K);
  const double lattice = nickel.lattice_m2_per_s * std::exp(-nickel.lattice_J_per_mol / (R_J_per_molK * T_K));
  const double power_law = 3.0e6 * lattice * shear_Pa * 2.49e-10 / (k_J_per_K * T_K) * std::pow(stress_Pa / shear_Pa, 4.6);
  EXPECT_LT(power_law, 1e-3 * stress_Pa * creep_of(nickel, T_K, 30e-6));
}

TEST(FrameSag, IsThatOfAnElasticRodWithStressOverCreepForItsModulus) {
  // 20 mm of 3 mm round steel of 200 GPa under 1 N/m: 5 q L^4 / (384 E I) = 0.00262 µm, by hand.
  EXPECT_NEAR(1e6 * span_sag_m({0.020, 0.0015, 1.0}, 1 / 200e9), 0.002620, 1e-6);
  EXPECT_NEAR(span_sag_m({0.040, 0.0015, 1.0}, 1e-9) / span_sag_m({0.020, 0.0015, 1.0}, 1e-9), 16, 1e-9);
}

TEST(FrameSag, RefusesAMeltAndAGrainOfNothing) {
  const CastAlloy alloy{1500, 5e-13, 30e-6};
  EXPECT_THROW((void)diffusional_creep_per_Pa_s(1501, alloy), std::domain_error);
  EXPECT_THROW((void)diffusional_creep_per_Pa_s(200, alloy), std::domain_error);
  EXPECT_THROW((void)diffusional_creep_per_Pa_s(1200, {1500, 5e-13, 0}), std::domain_error);
  EXPECT_GT(diffusional_creep_per_Pa_s(1500, alloy), diffusional_creep_per_Pa_s(1200, alloy));
}

}  // namespace
}  // namespace heatwork::physics
