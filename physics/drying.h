// Drying of a wet build-up: how fast water leaves the surface, and whether the vapour lifts the skin.
#pragma once

namespace heatwork::physics {

/// Latent heat of evaporation, linear between 0 and 100 C: 2.5009e6 - 2445 t, t in C. Within 0.5 % of the steam tables to 150 C. [J/kg]
/// source: iapws-if97 (values at 0 and 100 C, memory) · theory: (drying.1)
[[nodiscard]] double latent_heat_J_per_kg(double temperature_K);

/// Saturation pressure that belongs to that latent heat (Clapeyron, vapour as an ideal gas), through 101 418 Pa at 100 C. [Pa]
/// Within 3 % of the steam tables from 0 to 120 C, exact at 100 C (tests/reference); held constant above 200 C, where no water is left.
/// source: iapws-if97 · theory: (drying.2)
[[nodiscard]] double water_saturation_pressure_Pa(double temperature_K);

/// Specific heat of liquid water. [J/(kg K)]
/// source: iapws-if97 (memory, 4.18 to 4.22 between 10 and 100 C)
inline constexpr double water_specific_heat_J_per_kgK = 4190.0;

/// Heat that drives off a mass of water at a temperature. [J]
/// source: viscous-sintering-practice (computed) · theory: (drying.1)
[[nodiscard]] double drying_heat_J(double water_kg, double temperature_K);

/// Surroundings of a drying surface.
struct DryingAir {
  double film_W_per_m2K = 0;      ///< convective film at the surface
  double pressure_Pa = 101325.0;  ///< absolute
  double vapour_fraction = 0;     ///< of the air far away, moles of water in moles of gas, below 1
};

/// Flux of water and its slopes by surface temperature and by water left. [kg/(m2 s)], [kg/(m2 s K)], [1/s]
struct Evaporation {
  double flux = 0, by_temperature = 0, by_water = 0;
};

/// Water leaves by diffusion through the film (Lewis analogy), with the draught of the vapour itself; near boiling heat alone limits it.
/// Full speed down to 30 % of the first water (assumed), then falling to nothing. Never negative: condensation is not modelled.
/// source: incropera; falling rate assumed · theory: (drying.3), (drying.4), (drying.5)
[[nodiscard]] Evaporation evaporation(const DryingAir& air, double surface_K, double water_kg_per_m2, double first_water_kg_per_m2);

/// Permeability of a bed of grains, Kozeny-Carman: d2 e3 / (180 (1 - e)2). [m2]
/// error: std::domain_error unless diameter > 0 and 0 < void fraction < 1
/// source: carman-1937 · theory: (drying.6)
[[nodiscard]] double kozeny_carman_m2(double grain_diameter_m, double void_fraction);

/// Viscosity of steam near 100 C. [Pa s]
/// source: iapws-2008 (memory, 12.3 at 100 C)
inline constexpr double steam_viscosity_Pa_s = 1.23e-5;

/// Density of water vapour as an ideal gas: p M / (R T). [kg/m3]
/// source: codata-2018 · theory: (drying.7)
[[nodiscard]] double vapour_density_kg_per_m3(double pressure_Pa, double temperature_K);

/// Pressure that drives a flux of vapour through a dry skin: m'' mu delta / (rho k). [Pa]
/// source: viscous-sintering-practice (computed) · theory: (drying.8)
[[nodiscard]] double skin_pressure_Pa(double flux_kg_per_m2s, double skin_m, double vapour_density_kg_per_m3, double permeability_m2);

/// The same with the gas expanding on its way out: sqrt(p2 + 2 p dp) - p, dp from the density outside. [Pa]
/// Equal to skin_pressure_Pa at the mean density; matters in a vacuum, where the density outside is small.
/// source: carman-1937 (Darcy's law for a perfect gas, computed) · theory: (drying.9)
[[nodiscard]] double expanding_skin_pressure_Pa(double pressure_Pa, double skin_pressure_outside_density_Pa);

/// Vapour pressure over the strength of moist, just-dry powder: below 0.3 safe, to 1 crack risk, beyond it bursts. [pure number]
/// source: viscous-sintering-practice (computed) · theory: (drying.10)
[[nodiscard]] double burst_index(double skin_pressure_Pa, double strength_Pa);

}  // namespace heatwork::physics
