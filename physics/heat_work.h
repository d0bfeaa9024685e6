#pragma once

#include <span>

#include "physics/viscosity.h"

namespace heatwork::physics {

/// Integral of dt / eta over a history [1/Pa], eta with its crystals; heat-work, rounding and levelling are multiples of it.
/// Temperatures linear between points that rise in time. Range: crystal factor >= 1. theory: (heat-work.1)
double fluidity_per_Pa(const Vft& vft, double crystal_factor, std::span<const double> times_s, std::span<const double> temperatures_K);

/// The same, summed up to every point of the history [1/Pa]; `sums` has as many places as the history. theory: (heat-work.1)
void fluidity_sums_per_Pa(const Vft& vft, double crystal_factor, std::span<const double> times_s, std::span<const double> temperatures_K,
                          std::span<double> sums);

/// Integral of dt / eta over one segment with temperature linear in time [1/Pa]; nothing is checked.
/// Relative error below 1e-8. theory: (heat-work.1)
double fluidity_of_segment_per_Pa(const Vft& vft, double crystal_factor, double duration_s, double first_K, double last_K);

/// Heat-work of a powder [1]: Theta = gamma / R times the integral of dt / eta. theory: (heat-work.2)
/// Range: surface tension and radius > 0. source: scherer-1977
double heat_work(double fluidity_per_Pa, double surface_tension_N_per_m, double particle_radius_um);

/// Temperature at which another time does the same work, exactly [C]. theory: (heat-work.3)
/// Range: times > 0, answer below the pole refused by std::domain_error.
double equal_heat_work_C(const Vft& vft, double temperature_C, double time_s, double other_time_s);

/// Rise in temperature that does the work of twice the time, by the local slope [K]: log10(2) (T - T0)^2 / B. theory: (heat-work.4)
double doubling_K(const Vft& vft, double temperature_C);

/// Extra hold at the top that a ramp of the given rate to it is worth, by the local slope [s]: (T - T0)^2 / (ln(10) B q). theory:
/// (heat-work.5)
double ramp_as_hold_s(const Vft& vft, double top_C, double rate_K_per_s);

}  // namespace heatwork::physics
