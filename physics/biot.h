// When may a section be taken as one temperature?
#pragma once

namespace heatwork::physics {

/// Up to this Biot number one temperature serves: surface and middle differ by under a twentieth of the lag (assumed, customary). [pure
/// number] source: incropera
inline constexpr double largest_lumped_biot = 0.1;

/// Film times thickness over conductivity: h sum(L / k), thickness counted from the unheated face or the middle. [pure number]
/// source: incropera · theory: (heat.7)
[[nodiscard]] constexpr double biot(double film_W_per_m2K, double resistance_m2K_per_W) {
  return film_W_per_m2K * resistance_m2K_per_W;
}

}  // namespace heatwork::physics
