// Heat-work: what time at temperature does to a melt, whatever the path.
#pragma once

#include <span>

#include "physics/viscosity.h"

namespace heatwork::physics {

/// Integral of dt / eta over a history [1/Pa], eta with its crystals; heat-work, rounding and levelling are multiples of it.
/// Temperatures linear between points; two at one time are a jump. Range: crystal factor >= 1. source: computed-here theory: (heat-work.1)
double fluidity_per_Pa(const Vft& vft, double crystal_factor, std::span<const double> times_s, std::span<const double> temperatures_K);

/// The same, summed up to every point of the history [1/Pa]; `sums` has as many places as the history.
/// source: computed-here theory: (heat-work.1)
void fluidity_sums_per_Pa(const Vft& vft, double crystal_factor, std::span<const double> times_s, std::span<const double> temperatures_K,
                          std::span<double> sums);

/// Integral of dt / eta over one segment with temperature linear in time [1/Pa]; arguments are not checked.
/// Relative error below 1e-8 where the melt is softer than 10^11 Pa s. source: computed-here theory: (heat-work.1)
double fluidity_of_segment_per_Pa(const Vft& vft, double crystal_factor, double duration_s, double first_K, double last_K);

/// Heat-work of a powder [1]: Theta = gamma / R times the integral of dt / eta.
/// Range: surface tension and radius > 0. source: scherer-1977 theory: (heat-work.2)
double heat_work(double fluidity_per_Pa, double surface_tension_N_per_m, double particle_radius_um);

/// Temperature at which another time does the same work, exactly [C].
/// Range: times > 0, answers of 10^A to 10^14 Pa s; else std::domain_error. source: computed-here theory: (heat-work.3)
double equal_heat_work_C(const Vft& vft, double temperature_C, double time_s, double other_time_s);

/// Rise in temperature that does the work of twice the time, by the local slope [K]: log10(2) (T - T0)^2 / B.
/// Range: T > T0. source: computed-here theory: (heat-work.4)
double doubling_K(const Vft& vft, double temperature_C);

/// Extra hold at the top that a ramp to it is worth, by the local slope [s]: (T - T0)^2 / (ln(10) B q), q the rate.
/// Range: rate > 0. source: computed-here theory: (heat-work.5)
double ramp_as_hold_s(const Vft& vft, double top_C, double rate_K_per_s);

}  // namespace heatwork::physics
