// Open stage of viscous sintering: a cubic cell of cylinders that thicken and shorten.
#pragma once

namespace heatwork::physics {

/// Linear shrinkage of touching spheres at early times [1]: 3 gamma t / (8 eta R).
/// Range: to about 0.1. source: frenkel-1945 theory: (sintering.1)
double frenkel_shrinkage(double surface_tension_N_per_m, double viscosity_Pa_s, double particle_radius_um, double time_s);

/// Relative density of the cubic cell of cylinders of radius x times its edge [1]: 3 pi x^2 - 8 sqrt(2) x^3.
/// Range: 0 <= x <= 0.555. source: scherer-1977 theory: (sintering.2)
double cell_density(double x);

/// Radius over edge of the cell of a relative density [1].
/// Range: 0 <= density <= 0.96925 (x 0.555); a density of 0.942 means x = 0.5, the touch. source: scherer-1977 theory: (sintering.2)
double cell_ratio(double relative_density);

/// Reduced time of the cell [1]: F(x), integral of 2 dx / density^(1/3) from 0.
/// Range: 0 <= x <= 0.555. source: scherer-1977 theory: (sintering.3) (sintering.4)
double cell_reduced_time(double x);

/// Radius over edge of the cell at a reduced time F [1], the inverse of the above, from a table good to 1e-12.
/// Range: 0 <= F <= F(0.52). source: scherer-1977 theory: (sintering.4)
double cell_ratio_at(double reduced_time);

/// Edge of the first cell in particle radii that has the surface of the powder [1]: (6 pi x - 24 sqrt(2) x^2) / (3 density).
/// Range: 0.2 <= density <= 0.9. source: scherer-1977 theory: (sintering.5)
double first_cell_edge_in_radii(double start_relative_density);

/// Growth of F(x) with heat-work [1]: k_s / (edge density^(1/3)), edge in particle radii, of a start density and shape factor.
/// Range: density 0.2 to 0.9, factor > 0. source: scherer-1977 theory: (sintering.6)
double reduced_time_per_heat_work(double start_relative_density, double shape_factor);

/// Time from one relative density to another in units of eta R / gamma [1], surface-matched cell, shape factor 1.
/// Range: 0.2 <= start <= end <= 0.942. source: scherer-1977 theory: (sintering.6)
double cylinder_sintering_reduced_time(double relative_density_start, double relative_density_end);

/// Linear rate of shrinkage at the start in gamma / (eta R) [1]; 0.5 whatever the start density.
/// source: scherer-1977 theory: (sintering.7)
double first_linear_rate(double start_relative_density);

/// Linear shrinkage of a body that shrinks alike in all directions [1]: 1 - (start / end)^(1/3).
/// source: computed-here theory: (sintering.8)
double linear_shrinkage(double relative_density_start, double relative_density_end);

/// Start density over end density of a body that shrinks by other shares along and across [1]: (1 - along) (1 - across)^2.
/// Range: shares below 1. source: computed-here theory: (sintering.8)
double density_ratio_of_shrinkage(double along, double across);

}  // namespace heatwork::physics
