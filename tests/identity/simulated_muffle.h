// A muffle at full power as physics has it, stepped through time: an element whose wire changes with heat, a mass whose heat capacity does,
// losses through the lining and by radiation, mains that move, water that boils off, a thermocouple that lags, a display that steps.
// Nothing here is shared with what judges such runs.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "simulated_bench.h"

namespace heatwork::tests {

struct Muffle {
  double power_W = 1200;  ///< cold, at nominal mains, when new
  double wire = 1;        ///< resistance over that when new
  double capacity_J_per_K = 500, capacity_rises_per_K = 0;
  double lost_W_per_K = 0.6;     ///< through the lining
  double radiated_W_per_K4 = 0;  ///< through cracks and the door
  double lining = 1;             ///< losses over those when new
  double most_K_per_s = 1e9;     ///< a rate the controller does not exceed
  double water_g = 0;            ///< boils off from 95 °C on
  double lag_s = 4;              ///< of the thermocouple
};

/// What of the power is there, cold wire over hot: near a maker's table, by a line of its own.
inline double share_when_hot(double T_C) {
  return 1 / (1 + 0.00004 * std::max(0.0, T_C - 20));
}

inline double fourth(double value) {
  return value * value * value * value;
}

struct HeatingRecord {
  std::vector<double> times_s, temperatures_C;
};

struct RunReading {
  double room_C = 21, start_C = 40, mains_V = 230, nominal_V = 230, mains_move_V = 0.8;
  double every_s = 5, missed = 0.1, gap_s = 0, noise_K = 0.7, step_K = 1, to_C = 900;
};

inline HeatingRecord heated(const Muffle& muffle, const RunReading& reading, SimulatedBench& bench) {
  HeatingRecord out;
  const double dt = 0.1, gap_from_s = bench.between(60, 250), room_K = reading.room_C + 273.15;
  double T = reading.start_C, junction = T, water_g = muffle.water_g, next_s = 0, moved_V = 0;
  for (double t = 0; t < 3600 && junction < reading.to_C; t += dt) {
    if (t + 1e-9 >= next_s) {
      moved_V = 0.9 * moved_V + reading.mains_move_V * 0.43 * bench.normal();
      const bool in_gap = t > gap_from_s && t < gap_from_s + reading.gap_s;
      if (!in_gap && bench.uniform() >= reading.missed) {
        out.times_s.push_back(next_s);
        out.temperatures_C.push_back(bench.shown(junction, reading.noise_K, reading.step_K));
      }
      next_s += reading.every_s;
    }
    const double volts = (reading.mains_V + moved_V) / reading.nominal_V;
    const double capacity = muffle.capacity_J_per_K * (1 + muffle.capacity_rises_per_K * (T - 500));
    const double lost =
        muffle.lining * (muffle.lost_W_per_K * (T - reading.room_C) + muffle.radiated_W_per_K4 * (fourth(T + 273.15) - fourth(room_K)));
    double heat = muffle.power_W / muffle.wire * volts * volts * share_when_hot(T) - lost;
    heat = std::min(heat, muffle.most_K_per_s * capacity);
    if (water_g > 0 && T > 95) {
      const double boils_W = std::min(heat, 12 * (T - 95));
      water_g -= dt * std::max(0.0, boils_W) / 2450;
      heat -= boils_W;
    }
    T += dt * heat / capacity;
    junction += dt * (T - junction) / muffle.lag_s;
  }
  return out;
}

}  // namespace heatwork::tests
