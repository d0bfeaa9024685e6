// One cooling of a veneered core as a free plate, every figure within 0.1 MPa of the fine run; the flat plate the same.
#include <benchmark/benchmark.h>

#include "../tests/reference/stress_glasses.h"

namespace {

using namespace heatwork::reference;

void bilayer(benchmark::State& run, StressForm form) {
  const std::vector<StressLayer> layers = {zirconia(), porcelain()};
  for (auto _ : run) benchmark::DoNotOptimize(cooled(form, layers, 750, 25, 17, 17, 4, {1.4, 7, 4}));
}
void cooling_plate_free(benchmark::State& run) {
  bilayer(run, StressForm::plate_free);
}
void cooling_plate_flat(benchmark::State& run) {
  bilayer(run, StressForm::plate_flat);
}
void cooling_sphere(benchmark::State& run) {
  bilayer(run, StressForm::sphere);
}
BENCHMARK(cooling_plate_free)->Unit(benchmark::kMillisecond);
BENCHMARK(cooling_plate_flat)->Unit(benchmark::kMillisecond);
BENCHMARK(cooling_sphere)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
