// The demo firing alone: two pieces, all processes, at the accuracy shown; then with the comparison; and many firings for memory.
#include <benchmark/benchmark.h>
#include <malloc.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "firing/rehearsal.h"
#include "metrology/atmosphere.h"
#include "trade/deciding_inputs.h"
#include "trade/library.h"
#include "trade/shipped.h"

namespace {

using namespace heatwork;

trade::ResolvedFiring demo() {
  return trade::load_firing(std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / "demo" / "firing.toml", [](quantity::Length altitude) {
    return quantity::Pressure::si(metrology::standard_atmosphere_Pa(altitude.si()));
  });
}

/// Resident memory of this process. [kB]
double resident_kB() {
  std::ifstream status("/proc/self/status");
  for (std::string word; status >> word;) {
    if (word != "VmRSS:") continue;
    double kB = 0;
    status >> kB;
    return kB;
  }
  return 0;
}

void firing_alone(benchmark::State& state) {
  const trade::ResolvedFiring firing = demo();
  firing::RehearseOptions options;
  options.compare = false;
  for (auto _ : state) benchmark::DoNotOptimize(firing::rehearse(firing, options));
}
BENCHMARK(firing_alone)->Unit(benchmark::kMillisecond)->Repetitions(9)->ReportAggregatesOnly();

void firing_with_comparison(benchmark::State& state) {
  const trade::ResolvedFiring firing = demo();
  for (auto _ : state) benchmark::DoNotOptimize(firing::rehearse(firing));
}
BENCHMARK(firing_with_comparison)->Unit(benchmark::kMillisecond)->Repetitions(9)->ReportAggregatesOnly();

/// With instruction, comparison and the bands of every finding, on as many threads as the machine has.
void firing_with_bands(benchmark::State& state) {
  const trade::ResolvedFiring firing = demo();
  const trade::DecidingInputs inputs = trade::read_deciding_inputs("limits/inputs.toml", trade::shipped_text("limits/inputs.toml"));
  firing::RehearseOptions options;
  options.inputs = &inputs;
  options.workers = static_cast<unsigned>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(firing::rehearse(firing, options));
}
BENCHMARK(firing_with_bands)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime()->Repetitions(9)->ReportAggregatesOnly();

/// The same with the stress of every layer, its ranges and levers.
void firing_with_stress(benchmark::State& state) {
  const trade::ResolvedFiring firing = demo();
  const trade::DecidingInputs inputs = trade::read_deciding_inputs("limits/inputs.toml", trade::shipped_text("limits/inputs.toml"));
  firing::RehearseOptions options;
  options.inputs = &inputs;
  options.stress = true;
  options.workers = static_cast<unsigned>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(firing::rehearse(firing, options));
}
BENCHMARK(firing_with_stress)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime()->Repetitions(3)->ReportAggregatesOnly();

/// 10 000 firings: memory after the first thousand and at the end.
void many_firings(benchmark::State& state) {
  const trade::ResolvedFiring firing = demo();
  firing::RehearseOptions options;
  options.compare = false;
  for (auto _ : state) {
    for (int i = 0; i < 1000; ++i) benchmark::DoNotOptimize(firing::rehearse(firing, options));
    const double early_kB = resident_kB();
    for (int i = 0; i < 9000; ++i) benchmark::DoNotOptimize(firing::rehearse(firing, options));
    state.counters["kB_after_1000"] = early_kB;
    state.counters["kB_after_10000"] = resident_kB();
  }
}
BENCHMARK(many_firings)->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace

int main(int argc, char** argv) {
  // As the program itself does: cli/main.cpp.
  ::mallopt(M_MMAP_THRESHOLD, 64 << 20);
  ::mallopt(M_TRIM_THRESHOLD, 64 << 20);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
}
