// Chance for simulated records, the same on every machine: seeded numbers, noise, a display that steps, and the counts asked for.
#pragma once

#include <cmath>
#include <cstdlib>
#include <numbers>
#include <random>

namespace heatwork::tests {

class SimulatedBench {
 public:
  explicit SimulatedBench(unsigned seed) : random_(seed) {}
  double uniform() { return (static_cast<double>(random_() >> 11) + 0.5) * 0x1p-53; }
  double between(double low, double high) { return low + (high - low) * uniform(); }
  double normal() { return std::sqrt(-2 * std::log(uniform())) * std::cos(2 * std::numbers::pi * uniform()); }
  /// What a display that steps shows of a value with noise.
  double shown(double value, double noise, double step) { return step * std::round((value + noise * normal()) / step); }

 private:
  std::mt19937_64 random_;
};

/// The full count where HEATWORK_LONG is set, else the small one.
inline int simulated(int full, int small) {
  return std::getenv("HEATWORK_LONG") != nullptr ? full : small;
}

}  // namespace heatwork::tests
