// Viscosity of a glass melt over temperature, with and without crystals.
#pragma once

#include <array>
#include <span>

namespace heatwork::physics {

/// Vogel-Fulcher-Tammann law of a glass melt: log10(eta / Pa s) = A + B / (T - T0), T and T0 in degrees Celsius.
/// A [log10 Pa s], B [K], T0 [C]. Range: B > 0. source: vogel-fulcher-tammann theory: (viscosity.1)
struct Vft {
  double A = -3.0;
  double B_K = 0.0;
  double T0_C = 0.0;
  bool operator==(const Vft&) const = default;
};

/// Largest viscosity the law is asked for; colder glass keeps it [log10 Pa s].
/// Nothing flows there within a working day. source: chosen-here theory: (viscosity.2)
inline constexpr double stiffest_log10_viscosity = 14.0;

/// Viscosity above which a porcelain wall does not move within a firing [Pa s].
/// source: chosen-here theory: (viscosity.6)
inline constexpr double frozen_viscosity_Pa_s = 1e10;

/// Refuses a law that is not a falling viscosity: B <= 0 or a value that is not finite.
/// Throws std::domain_error. source: chosen-here theory: (viscosity.1)
void check_vft(const Vft& vft);

/// Viscosity of the glass [log10 Pa s], 14 wherever the formula reaches it or T is near or below T0.
/// Range: T above absolute zero. source: vogel-fulcher-tammann theory: (viscosity.1) (viscosity.2)
double log10_viscosity(const Vft& vft, double temperature_C);

/// Viscosity of the glass [Pa s]. source: vogel-fulcher-tammann
/// theory: (viscosity.1) (viscosity.2)
double viscosity_Pa_s(const Vft& vft, double temperature_C);

/// Temperature at which the glass has the given viscosity [C].
/// Range: A < log10 viscosity <= 14; throws std::domain_error. source: vogel-fulcher-tammann theory: (viscosity.3)
double temperature_of_log10_viscosity_C(const Vft& vft, double log10_Pa_s);

/// The same law stated in dPa s (poise) turned into Pa s [log10 Pa s]: exactly one unit lower.
/// Range: any. source: si-brochure theory: (viscosity.1)
Vft vft_from_dPa_s(const Vft& in_dPa_s);

/// One point of a measured viscosity curve: temperature [C] and viscosity [log10 Pa s].
struct ViscosityPoint {
  double temperature_C = 0.0;
  double log10_Pa_s = 0.0;
};

/// The law through three points, exactly [A in log10 Pa s, B in K, T0 in C].
/// Range: viscosities that fall with temperature, ever more slowly; else std::domain_error.
/// source: vogel-fulcher-tammann theory: (viscosity.4)
Vft vft_through_three_points(const std::array<ViscosityPoint, 3>& points);

/// The law with given A through two points [B in K, T0 in C].
/// Range: viscosities above A and falling with temperature; else std::domain_error.
/// source: vogel-fulcher-tammann theory: (viscosity.5)
Vft vft_through_two_points(double A, const ViscosityPoint& first, const ViscosityPoint& second);

/// Factor by which crystals of a volume share stiffen the melt [1]: (1 - s / 0.6)^(-1.5).
/// Range: 0 <= s < 0.6. source: krieger-dougherty theory: (viscosity.7)
double crystal_factor(double crystal_volume_share);

/// The glass of a porcelain with a given glass transition that fires well at a given temperature with 1 min hold [A -3, B in K, T0 in C].
/// 10^12 Pa s at the one, 10^5.1 Pa s with its crystals at the other, uncertain by 0.4. source: calibrated-here theory: (viscosity.8)
Vft vft_of_porcelain(double glass_transition_C, double firing_C, double crystal_factor);

/// Temperature above which a wall of this melt with its crystals moves [C]. source: chosen-here theory: (viscosity.6)
double freezing_temperature_C(const Vft& vft, double crystal_factor);

}  // namespace heatwork::physics
