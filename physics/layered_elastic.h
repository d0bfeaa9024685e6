// Stress of bonded elastic layers after one change of temperature, in closed form; and of a plate suddenly cooled.
#pragma once

#include <span>
#include <vector>

namespace heatwork::physics {

/// What bears the layers: plates of two equal directions, a strip, a ring (plane stress), a cylinder (uniform axial strain, no axial
/// force), a sphere.
enum class ElasticForm { plate_free, plate_flat, strip_free, ring, cylinder, sphere };

/// One layer, inside out [m, Pa, 1, 1/K].
struct ElasticLayer {
  double thickness_m = 0.0;
  double youngs_Pa = 0.0;
  double poisson = 0.0;
  double expansion_per_K = 0.0;
};

/// Stresses at the faces of a layer [Pa], tension positive.
struct LayerStress {
  double inner_hoop_Pa = 0.0, outer_hoop_Pa = 0.0;
  double inner_radial_Pa = 0.0, outer_radial_Pa = 0.0;
};

struct LayeredStress {
  std::vector<LayerStress> layers;
  double curvature_per_m = 0.0;  ///< positive where the outside grows longer than the inside; 0 for all but free plates and strips
};

/// Stresses of layers that were free of stress before the temperature changed by so much [Pa, 1/m].
/// Range: thickness and modulus above 0, Poisson's ratio from 0 and below 0.5, inner radius above 0 for curved forms.
/// source: timoshenko-1925, hsueh-2002, lame-1852. Throws std::domain_error.
/// theory: (layered-elastic.1) (layered-elastic.2) (layered-elastic.3) (layered-elastic.4)
LayeredStress layered_stress(ElasticForm form, double inner_radius_m, std::span<const ElasticLayer> layers, double temperature_change_K);

/// Stress in which an indent's crack has a length other than that without stress, tension positive [Pa].
/// K (1 - (free/found)^1.5) / (2 sqrt(found/pi)). Range: all above 0. source: marshall-lawn-1977. Throws std::domain_error.
/// theory: (layered-elastic.6)
double indentation_stress_Pa(double toughness_Pa_sqrt_m, double free_crack_m, double found_crack_m);

/// Highest surface stress of a plate suddenly cooled by a film, over E alpha dT / (1 - nu), and its Fourier number [1].
struct ThermalShock {
  double peak = 0.0;
  double fourier = 0.0;
};

/// Surface stress of that plate at a Fourier number, over E alpha dT / (1 - nu) [1].
/// Range: Biot number above 0. source: incropera. Throws std::domain_error. theory: (layered-elastic.5)
double shock_stress(double biot, double fourier);

/// Its maximum over time [1]. Range: Biot number from 0.001 to 1000. source: incropera. Throws std::domain_error.
/// theory: (layered-elastic.5)
ThermalShock thermal_shock(double biot);

}  // namespace heatwork::physics
