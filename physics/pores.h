// Closed pores: how fast they shrink or swell, the gas they hold, and when pores seal.
#pragma once

namespace heatwork::physics {

/// Rate of the radius of a closed pore [m/s]: -(a / (4 eta)) (2 gamma / a + p_chamber - p_gas) / (1 - phi).
/// Range: radius, viscosity > 0, 0 <= porosity < 1. source: mackenzie-shuttleworth-1949 theory: (pores.1)
double closed_pore_rate_m_per_s(double radius_m, double viscosity_Pa_s, double surface_tension_N_per_m, double chamber_Pa, double gas_Pa,
                                double porosity);

/// Pressure of the gas caught in a pore [Pa]: p_sealed (a_sealed / a)^3 T / T_sealed, T in K.
/// Range: moles kept; radius, temperatures > 0. source: ideal-gas theory: (pores.2)
double pore_gas_Pa(double sealed_Pa, double radius_over_sealed, double temperature_K, double sealed_temperature_K);

/// Share of its volume at sealing that a pore keeps in the end, isothermal [1]: p_sealed / s^3 = p_chamber + 2 gamma / (a s), answer s^3.
/// Range: radius, tension > 0, pressures >= 0. source: mackenzie-shuttleworth-1949 theory: (pores.3)
double pore_equilibrium_volume_ratio(double radius_um, double sealed_Pa, double chamber_Pa, double surface_tension_N_per_m);

/// Time for gas-free pores of a body to go from one porosity to another in units of eta a0 / gamma [1].
/// Range: 0 <= end <= start < 1, start > 0. source: mackenzie-shuttleworth-1949 theory: (pores.4)
double pore_closure_reduced_time(double porosity_start, double porosity_end);

/// Share of the pores that is sealed [1]: u^2 (3 - 2 u), u = (0.14 - phi) / 0.09 kept between 0 and 1.
/// phi: porosity of the open stage alone. source: okuma-2017, chosen-here theory: (pores.5)
double sealed_fraction(double open_porosity);

/// Porosity of the open stage at which a share of the pores is sealed [1], the inverse of the above.
/// Range: 0 to 1. source: chosen-here theory: (pores.5)
double porosity_of_sealed_fraction(double fraction);

/// Void per unit of solid [1] at a porosity, and back. source: computed-here theory: (pores.6)
double void_per_solid(double porosity);
double porosity_of_void(double void_per_solid);

/// Scattering by pores [1/mm]: 1.5 phi / a (geometric optics, efficiency 2).
/// Range: radius > 0, in um. source: computed-here theory: (pores.8)
double pore_scattering_per_mm(double porosity, double pore_radius_um);

}  // namespace heatwork::physics
