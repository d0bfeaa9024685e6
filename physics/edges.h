// What flows besides pores and ripples: corners that round, edges that sag, layers that run.
#pragma once

namespace heatwork::physics {

/// Length by which corners round [um]: gamma times the integral of dt / eta.
/// Range: tension > 0. source: computed-here theory: (gloss-and-edges.5)
double rounding_um(double surface_tension_N_per_m, double fluidity_per_Pa);

/// Speed of the tip of a free cantilever of glass under its own weight [um/s]: rho g L^4 / (2 eta h^2).
/// Range: all > 0, long against its thickness. source: computed-here theory: (gloss-and-edges.6)
double cantilever_tip_speed_um_per_s(double length_mm, double thickness_mm, double density_kg_per_m3, double viscosity_Pa_s);

/// Sag of that tip, while small [um]: rho g L^4 / (2 h^2) times the integral of dt / eta.
/// Range: all > 0. source: computed-here theory: (gloss-and-edges.6)
double cantilever_sag_um(double length_mm, double thickness_mm, double density_kg_per_m3, double fluidity_per_Pa);

/// Speed at which the face of a bonded upright layer runs down [um/s]: rho g h^2 / (2 eta).
/// Range: all > 0. source: computed-here theory: (gloss-and-edges.7)
double bonded_layer_speed_um_per_s(double thickness_mm, double density_kg_per_m3, double viscosity_Pa_s);

/// Run of that face after a fluidity integral [um]: rho g h^2 / 2 times the integral of dt / eta.
/// Range: all > 0. source: computed-here theory: (gloss-and-edges.7)
double bonded_layer_run_um(double thickness_mm, double density_kg_per_m3, double fluidity_per_Pa);

}  // namespace heatwork::physics
