// One point of one piece over a whole firing: all of it, heat-work alone, and crystals.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "physics/crystallisation.h"
#include "physics/powder.h"

namespace {

using namespace heatwork::physics;

// About 40 min in 300 points: drying, ramp under vacuum, hold in air, cooling.
struct Firing {
  std::vector<double> times_s, temperatures_K, pressures_Pa;

  explicit Firing(double peak_K) {
    constexpr int points = 300;
    constexpr double end_s = 2400.0;
    for (int i = 0; i < points; ++i) {
      const double time_s = end_s * i / (points - 1);
      const double ramp_K = 673.0 + 0.9 * std::max(0.0, time_s - 480.0);
      const double top_s = 480.0 + (peak_K - 673.0) / 0.9;
      const double cooling_K = peak_K - 0.6 * std::max(0.0, time_s - top_s - 67.0);
      times_s.push_back(time_s);
      temperatures_K.push_back(std::min({ramp_K, peak_K, cooling_K}));
      pressures_Pa.push_back(time_s > 560.0 && time_s < top_s ? 5300.0 : 101325.0);
    }
  }
};

PowderProperties porcelain(Sealing sealing) {
  PowderProperties powder;
  powder.vft = {-3.0, 6267.0, 142.2};
  powder.crystal_factor = 1.71;
  powder.sealing = sealing;
  return powder;
}

void whole_firing(benchmark::State& run, Sealing sealing) {
  const Firing firing(1203.0);
  const PowderProperties powder = porcelain(sealing);
  PowderTrace trace;
  for (auto _ : run) {
    PowderState state = start_powder(powder);
    advance_powder(powder, state, firing.times_s, firing.temperatures_K, firing.pressures_Pa, &trace);
    benchmark::DoNotOptimize(state);
  }
  run.counters["steps"] = trace.steps;
}

void powder_smooth(benchmark::State& run) {
  whole_firing(run, Sealing::smooth);
}
void powder_hard(benchmark::State& run) {
  whole_firing(run, Sealing::hard);
}

void heat_work_alone(benchmark::State& run) {
  const Firing firing(1203.0);
  const PowderProperties powder = porcelain(Sealing::smooth);
  for (auto _ : run) benchmark::DoNotOptimize(powder_work(powder, firing.times_s, firing.temperatures_K));
}

void crystals(benchmark::State& run) {
  const Firing firing(1108.0);
  CrystallisationProperties block;
  block.steps = {{3.0, 320.0, 9.6126e15, true}, {2.0, 300.0, 1.2777e12, false}};
  for (auto _ : run) {
    CrystallisationState state = start_crystallisation(block);
    advance_crystallisation(block, state, firing.times_s, firing.temperatures_K);
    benchmark::DoNotOptimize(state);
  }
}

}  // namespace

BENCHMARK(powder_smooth)->Unit(benchmark::kMicrosecond);
BENCHMARK(powder_hard)->Unit(benchmark::kMicrosecond);
BENCHMARK(heat_work_alone)->Unit(benchmark::kMicrosecond);
BENCHMARK(crystals)->Unit(benchmark::kMicrosecond);
BENCHMARK_MAIN();
