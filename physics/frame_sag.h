// A metal frame at firing temperature: how far a span sinks under its own weight at most, by diffusional creep.
#pragma once

namespace heatwork::physics {

/// A cast alloy as diffusion sees it.
struct CastAlloy {
  double solidus_K = 0;
  double diffusion_m2_per_s = 0;  ///< of its atoms through the lattice, at the solidus
  double grain_m = 0;
};

/// Rate of strain per tension at small stress, by diffusion through grains and along their boundaries. [1/(Pa s)]
/// Both fall off below the solidus as slowly, and the boundaries are as fast, as in any of the close-packed pure metals that were looked at
/// below their melting points, so that it is an upper bound where the values of the alloy are.
/// Range: all > 0, temperature from 300 K to the solidus; throws std::domain_error beyond. source: brown-ashby-1980, frost-ashby-1982 (both
/// from memory) theory: (frame-sag.1)
double diffusional_creep_per_Pa_s(double temperature_K, const CastAlloy& alloy);

/// A round rod carried at both ends.
struct Span {
  double length_m = 0;
  double radius_m = 0;        ///< of the metal
  double weight_N_per_m = 0;  ///< of metal and all it carries
};

/// Sag of the middle, from the creep gathered over a firing (integral of its rate per tension). [m]
/// Range: radius > 0, others >= 0. source: computed-here theory: (frame-sag.2)
double span_sag_m(const Span& span, double creep_per_Pa);

}  // namespace heatwork::physics
