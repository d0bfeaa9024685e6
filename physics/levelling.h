// Levelling of a rough surface by surface tension: the way to gloss.
#pragma once

#include <array>
#include <span>

namespace heatwork::physics {

/// Acceleration of free fall, standard value by definition [m/s2]. source: si-brochure
inline constexpr double standard_gravity_m_per_s2 = 9.80665;

/// Time constant of a sine ripple of a film on a rigid base [s], surface tension alone.
/// Range: all > 0. source: orchard-1962 theory: (gloss-and-edges.1)
double levelling_time_constant_s(double wavelength_um, double thickness_um, double viscosity_Pa_s, double surface_tension_N_per_m);

/// The same with gravity on a horizontal film [s]: gamma k becomes gamma k + rho g / k.
/// Range: all > 0. source: orchard-1962 theory: (gloss-and-edges.1)
double levelling_time_constant_with_gravity_s(double wavelength_um, double thickness_um, double viscosity_Pa_s,
                                              double surface_tension_N_per_m, double density_kg_per_m3);

/// Limits of the above for a deep and for a thin film [s]. Range: all > 0. source: orchard-1962 theory: (gloss-and-edges.2)
double levelling_deep_s(double wavelength_um, double viscosity_Pa_s, double surface_tension_N_per_m);
double levelling_thin_s(double wavelength_um, double thickness_um, double viscosity_Pa_s, double surface_tension_N_per_m);

/// Levelling exponent N of a band per unit of fluidity integral [Pa]: eta / time constant.
/// Range: all > 0. source: orchard-1962 theory: (gloss-and-edges.3)
double levelling_per_fluidity_Pa(double wavelength_um, double thickness_um, double surface_tension_N_per_m);

/// One band of a rough surface: its own Ra at the start [um] and its wavelength [um].
struct RoughnessBand {
  double ra_um = 0.0;
  double wavelength_um = 0.0;
};

/// Roughness Ra left after a fluidity integral [um]: root of the sum of Ra_i^2 exp(-2 N_i), never below the floor.
/// Range: none negative. source: chosen-here theory: (gloss-and-edges.4)
double levelled_ra_um(std::span<const RoughnessBand> bands, double thickness_um, double surface_tension_N_per_m, double fluidity_per_Pa,
                      double floor_um);

/// A ground surface of Ra 2.88 um as bands of grain, grinding and form [um]. Amplitudes chosen once so that the nominal firing of the
/// metal-ceramic class leaves the 0.42 um of a self-glazed surface: a calibration. source: haralur-2012 theory: (gloss-and-edges.4)
inline constexpr std::array<RoughnessBand, 3> ground_surface{{{0.3, 25.0}, {2.47, 80.0}, {1.45, 500.0}}};

/// Wavelength that stands for the texture of the grain where one number is wanted [um]. source: chosen-here theory: (gloss-and-edges.3)
inline constexpr double grain_band_um = 25.0;

}  // namespace heatwork::physics
