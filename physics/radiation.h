// Grey radiation between a surface and surroundings of one temperature.
#pragma once

namespace heatwork::physics {

/// Stefan-Boltzmann constant, exact since 2019 (2 pi5 k4 / (15 h3 c2)). [W/(m2 K4)]
/// source: codata-2018 (defined)
inline constexpr double stefan_boltzmann_W_per_m2K4 = 5.670374419e-8;

/// Net heat a grey surface takes from black surroundings: eps sigma (Te^4 - T^4). [W/m2]
/// source: incropera · theory: (heat.4)
[[nodiscard]] constexpr double radiated_W_per_m2(double emissivity, double surroundings_K, double surface_K) {
  const double e2 = surroundings_K * surroundings_K, s2 = surface_K * surface_K;
  return emissivity * stefan_boltzmann_W_per_m2K4 * (e2 * e2 - s2 * s2);
}

/// Radiative film coefficient, exact factor of the difference: eps sigma (T^2 + Te^2)(T + Te). [W/(m2 K)]
/// source: incropera · theory: (heat.5)
[[nodiscard]] constexpr double radiative_film_W_per_m2K(double emissivity, double surroundings_K, double surface_K) {
  return emissivity * stefan_boltzmann_W_per_m2K4 * (surroundings_K * surroundings_K + surface_K * surface_K) *
         (surroundings_K + surface_K);
}

/// Time by which a thin body lags surroundings that rise steadily: C'' / (4 eps sigma T^3). [s]
/// source: incropera (computed) · theory: (heat.6)
[[nodiscard]] constexpr double radiative_time_constant_s(double heat_capacity_J_per_m2K, double emissivity, double temperature_K) {
  return heat_capacity_J_per_m2K / (4.0 * emissivity * stefan_boltzmann_W_per_m2K4 * temperature_K * temperature_K * temperature_K);
}

}  // namespace heatwork::physics
