// Simulated records of a shut chamber: leak, outgassing, water and both, with the noise, steps and gaps of a display. Verdicts are counted.
#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

#include "metrology/rate_of_rise.h"
#include "simulated_bench.h"

namespace heatwork::tests {
namespace {

using metrology::RiseVerdict;

struct Simulated {
  std::vector<double> times_s, pressures_mbar;
  double room_C = 0;
};

/// Saturation of water by a formula of its own (Magnus), not the estimator's.
double saturation_mbar(double room_C) {
  return 6.112 * std::exp(17.62 * room_C / (243.12 + room_C));
}

Simulated record_of(RiseVerdict kind, SimulatedBench& bench) {
  Simulated out;
  out.room_C = std::round(bench.between(18, 26));
  const double start = bench.between(6, 14), tau_s = bench.between(20, 80);
  const double slope = kind == RiseVerdict::leak || kind == RiseVerdict::mixed ? bench.between(0.02, 0.12) : 0;
  double amplitude = 0;
  if (kind == RiseVerdict::mixed) amplitude = bench.between(6, 20);
  if (kind == RiseVerdict::water) amplitude = saturation_mbar(out.room_C) * bench.between(0.93, 1.03) - start;
  if (kind == RiseVerdict::outgassing) {  // ends clear of what water would end at
    do amplitude = bench.between(4, 40);
    while (std::abs(start + amplitude - saturation_mbar(out.room_C)) < 0.28 * saturation_mbar(out.room_C));
  }
  const bool coarse = bench.uniform() < 0.5;
  const double step = coarse ? 1 : 0.1, noise = coarse ? 0.3 : 0.1;
  for (double time = 0; time <= 600; time += 10) {
    if (time > 0 && bench.uniform() < 0.15) continue;  // a reading missed
    out.times_s.push_back(time);
    out.pressures_mbar.push_back(bench.shown(start + slope * time - amplitude * std::expm1(-time / tau_s), noise, step));
  }
  return out;
}

TEST(VacuumSimulation, VerdictsAreRightOrUndecided) {
  SimulatedBench bench(74251);
  const int count = simulated(500, 100);
  const std::array<RiseVerdict, 4> kinds = {RiseVerdict::leak, RiseVerdict::outgassing, RiseVerdict::water, RiseVerdict::mixed};
  const std::array<const char*, 4> words = {"leak", "outgassing", "water", "mixed"};
  for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
    int right = 0, undecided = 0;
    for (int i = 0; i < count; ++i) {
      const Simulated record = record_of(kinds[kind], bench);
      const RiseVerdict verdict = metrology::judge_rise(record.times_s, record.pressures_mbar, record.room_C).verdict;
      right += verdict == kinds[kind] ? 1 : 0;
      undecided += verdict == RiseVerdict::undecided ? 1 : 0;
    }
    const std::string tail = kind == 0 ? "" : "_" + std::to_string(kind + 1);
    RecordProperty("figure" + tail, std::string("right verdicts of ") + words[kind]);
    RecordProperty("figure_value" + tail, std::to_string(static_cast<double>(right) / count));
    RecordProperty("figure_unit" + tail, "1");
    EXPECT_GE(right, 0.80 * count) << words[kind];
    EXPECT_LE(count - right - undecided, 0.05 * count) << words[kind];
    std::printf("%s: right %d, undecided %d of %d\n", words[kind], right, undecided, count);
  }
}

}  // namespace
}  // namespace heatwork::tests
