// A shut chamber as physics has it, stepped through time: air through a hole, gas leaving the lining, water leaving a cold wet place; and
// the gauge that shows it. Nothing here is shared with what judges such records.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "simulated_bench.h"

namespace heatwork::tests {

/// Amounts of gas are told as the pressure they would make in the chamber.
struct ShutChamber {
  double air_outside_mbar = 1013;
  double hole_per_s = 0;                      ///< share of the air outside that a choked hole lets in
  double gas_in_lining_mbar = 0;              ///< leaves at a rate in proportion to what is left
  double gas_leaves_per_s = 0.02;             ///< of the quicker half
  double slow_sites = 1;                      ///< how many times slower the other half leaves
  double water_lying_mbar = 0;                ///< wet: evaporates as long as there is any
  double evaporates_per_s = 0.02;             ///< of what lacks to saturation
  double wet_place_C = 20;                    ///< the coldest
  double residual_mbar = 8, vapour_mbar = 0;  ///< what the pump left of air and of water
  double warms_K_per_s = 0, chamber_K = 500;
};

/// Saturation of water by Magnus' formula, not the estimator's.
inline double saturated_mbar(double place_C) {
  return 6.112 * std::exp(17.62 * place_C / (243.12 + place_C));
}

/// Flow through a hole over its choked flow, of air from outside into a lower pressure.
inline double share_of_choked(double inside_over_outside) {
  constexpr double gamma = 1.4;
  const auto flow = [](double r) { return std::sqrt(std::pow(r, 2 / gamma) - std::pow(r, (gamma + 1) / gamma)); };
  constexpr double critical = 0.5283;
  return inside_over_outside <= critical ? 1 : flow(std::min(inside_over_outside, 1.0)) / flow(critical);
}

struct ChamberRecord {
  std::vector<double> times_s, pressures_mbar;
};

/// How a display shows it and somebody writes it down.
struct Reading {
  double length_s = 600, every_s = 10, missed = 0.15, gap_s = 0, noise_mbar = 0.1, step_mbar = 0.1;
};

inline ChamberRecord shut(ShutChamber chamber, const Reading& reading, SimulatedBench& bench) {
  ChamberRecord out;
  const double gap_from_s = bench.between(0.2, 0.7) * reading.length_s, dt = 0.05;
  double quick = 0.5 * chamber.gas_in_lining_mbar, slow = quick, air = chamber.residual_mbar, vapour = chamber.vapour_mbar, next_s = 0;
  for (double t = 0; t <= reading.length_s + 1e-9; t += dt) {
    if (t + 1e-9 >= next_s) {
      const bool in_gap = t > gap_from_s && t < gap_from_s + reading.gap_s;
      if (next_s == 0 || (!in_gap && bench.uniform() >= reading.missed)) {
        out.times_s.push_back(next_s);
        out.pressures_mbar.push_back(std::max(0.0, bench.shown(air + vapour, reading.noise_mbar, reading.step_mbar)));
      }
      next_s += reading.every_s;
    }
    const double in = chamber.hole_per_s * chamber.air_outside_mbar * share_of_choked((air + vapour) / chamber.air_outside_mbar);
    const double from_quick = chamber.gas_leaves_per_s * quick, from_slow = chamber.gas_leaves_per_s / chamber.slow_sites * slow;
    double steam = 0;
    if (chamber.water_lying_mbar > 0) steam = chamber.evaporates_per_s * (saturated_mbar(chamber.wet_place_C) - vapour);
    const double warmer = chamber.warms_K_per_s / chamber.chamber_K;
    air += dt * (in + from_quick + from_slow + air * warmer);
    vapour += dt * (steam + vapour * warmer);
    chamber.water_lying_mbar -= dt * steam;
    quick -= dt * from_quick;
    slow -= dt * from_slow;
  }
  return out;
}

}  // namespace heatwork::tests
