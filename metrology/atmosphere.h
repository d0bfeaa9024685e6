// Pressure of the air around a furnace, and what a vacuum dial means there.
#pragma once

namespace heatwork::metrology {

/// Pressure of the standard atmosphere at a geometric altitude [Pa].
/// p0 (T0 / (T0 - L H))^(-g M / (R L)) with H = r z / (r + z). Range: -500 to 11 000 m, else std::domain_error. Weather moves the true
/// pressure by about 2500 Pa (memory). source: us-standard-atmosphere-1976
double standard_atmosphere_Pa(double altitude_m);

/// What a vacuum dial counts in, always downwards from the air around it.
enum class DialUnit { mmHg, inHg, mbar, kPa, percent_of_ambient };

/// Absolute pressure that a vacuum dial stands for [Pa]: ambient - dial, a larger dial being a deeper vacuum.
/// Range: dial >= 0, ambient 10 000 to 120 000 Pa; std::domain_error also where nothing or less would be left. source: si-brochure
double absolute_of_dial_Pa(double dial, DialUnit unit, double ambient_Pa);

}  // namespace heatwork::metrology
