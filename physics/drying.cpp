#include "physics/drying.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "physics/arrhenius.h"
#include "physics/layer.h"

namespace heatwork::physics {

namespace {

constexpr double water_kg_per_mol = 0.018015268;  // IAPWS
constexpr double latent_at_0C = 2.5009e6, latent_fall_per_K = 2445.0;
constexpr double boiling_K = 373.15, boiling_Pa = 101418.0;
constexpr double highest_K = 473.15;          // beyond, the saturation pressure is held: no water is left there
constexpr double air_specific_heat = 1007.0;  // J/(kg K), incropera, 300 K
constexpr double water_over_air = 0.622;      // molar masses
constexpr double nearly_boiling = 0.95;       // vapour fraction from which the logarithm goes on as its tangent
constexpr double critical_share = 0.3;        // of the first water, from which the surface dries out (assumed)

double latent_at_absolute_zero() {
  return latent_at_0C + latent_fall_per_K * zero_celsius_K;
}

}  // namespace

// theory: (drying.1)
double latent_heat_J_per_kg(double temperature_K) {
  return latent_at_0C - latent_fall_per_K * (temperature_K - zero_celsius_K);
}

// theory: (drying.2)
double water_saturation_pressure_Pa(double temperature_K) {
  const double T = std::min(temperature_K, highest_K);
  const double exponent = water_kg_per_mol / gas_constant_J_per_mol_K *
                          (latent_at_absolute_zero() * (1.0 / boiling_K - 1.0 / T) - latent_fall_per_K * std::log(T / boiling_K));
  return boiling_Pa * std::exp(exponent);
}

double drying_heat_J(double water_kg, double temperature_K) {
  if (!(water_kg >= 0)) throw std::domain_error("water_kg must be zero or positive.");
  return water_kg * latent_heat_J_per_kg(temperature_K);
}

Evaporation evaporation(const DryingAir& air, double surface_K, double water_kg_per_m2, double first_water_kg_per_m2) {
  const double p = water_saturation_pressure_Pa(surface_K);
  const double x = p / air.pressure_Pa;
  if (x <= air.vapour_fraction || first_water_kg_per_m2 <= 0) return {};
  const double x_by_T = surface_K >= highest_K
                            ? 0.0
                            : x * water_kg_per_mol * latent_heat_J_per_kg(surface_K) / (gas_constant_J_per_mol_K * surface_K * surface_K);
  // theory: (drying.4): ln((1 - x_far)/(1 - x)), past nearly boiling its tangent
  double draught = std::log((1 - air.vapour_fraction) / (1 - std::min(x, nearly_boiling)));
  double by_x = 1.0 / (1 - std::min(x, nearly_boiling));
  if (x > nearly_boiling) draught += by_x * (x - nearly_boiling);
  // theory: (drying.5)
  const double share = water_kg_per_m2 / (critical_share * first_water_kg_per_m2);
  double available = 1, by_share = 0;
  if (share < 0) {
    available = 2 * share;
    by_share = 2;
  } else if (share < 1) {
    available = share * (2 - share);
    by_share = 2 - 2 * share;
  }
  // theory: (drying.3)
  const double conductance = water_over_air * air.film_W_per_m2K / air_specific_heat;
  return {conductance * draught * available, conductance * by_x * x_by_T * available,
          conductance * draught * by_share / (critical_share * first_water_kg_per_m2)};
}

// theory: (drying.6)
double kozeny_carman_m2(double grain_diameter_m, double void_fraction) {
  if (!(grain_diameter_m > 0)) throw std::domain_error("grain_diameter_m must be positive.");
  if (!(void_fraction > 0 && void_fraction < 1)) throw std::domain_error("void_fraction must lie between 0 and 1.");
  const double solid = 1 - void_fraction;
  return grain_diameter_m * grain_diameter_m * void_fraction * void_fraction * void_fraction / (180.0 * solid * solid);
}

// theory: (drying.7)
double vapour_density_kg_per_m3(double pressure_Pa, double temperature_K) {
  return pressure_Pa * water_kg_per_mol / (gas_constant_J_per_mol_K * temperature_K);
}

// theory: (drying.8)
double skin_pressure_Pa(double flux_kg_per_m2s, double skin_m, double density, double permeability_m2) {
  if (!(density > 0)) throw std::domain_error("vapour_density_kg_per_m3 must be positive.");
  if (!(permeability_m2 > 0)) throw std::domain_error("permeability_m2 must be positive.");
  return flux_kg_per_m2s * steam_viscosity_Pa_s * skin_m / (density * permeability_m2);
}

// theory: (drying.9)
double expanding_skin_pressure_Pa(double pressure_Pa, double rise_Pa) {
  return 2 * pressure_Pa * rise_Pa / (std::sqrt(pressure_Pa * pressure_Pa + 2 * pressure_Pa * rise_Pa) + pressure_Pa);
}

// theory: (drying.10)
double burst_index(double skin_pressure, double strength_Pa) {
  if (!(strength_Pa > 0)) throw std::domain_error("strength_Pa must be positive.");
  return skin_pressure / strength_Pa;
}

}  // namespace heatwork::physics
