// Vapour pressure of water: the plateau of a wet chamber.
#pragma once

namespace heatwork::metrology {

/// Zero of the Celsius scale, exact by definition. [K]
/// source: si-brochure
inline constexpr double zero_celsius_K = 273.15;

/// Saturation pressure of water [Pa].
/// Quadratic of region 4, p = (2 C / (-B + root of (B^2 - 4 A C)))^4 MPa. Range: 0 to 373.946 C, else std::domain_error.
/// source: iapws-if97
double water_saturation_Pa(double temperature_C);

}  // namespace heatwork::metrology
