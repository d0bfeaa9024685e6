// Answering after a wire of a melt test, judging a record of a shut chamber, a pump-down and a run at full power, as a check does when
// somebody waits at the furnace; and charting ten years of daily checks, whose goal is 50 ms.
#include <benchmark/benchmark.h>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "furnace_care/drift.h"
#include "metrology/heating_run.h"
#include "metrology/melting_threshold.h"
#include "metrology/pump_down.h"
#include "metrology/rate_of_rise.h"

namespace {

using namespace heatwork::metrology;

struct Record {
  std::vector<double> times_s, values;
};

/// Ten minutes, a reading every 10 s in whole mbar; a leak beside gas asks for all that is ever computed.
Record risen(double slope, double gas_mbar) {
  Record record;
  for (double t = 0; t <= 600; t += 10) {
    record.times_s.push_back(t);
    record.values.push_back(std::round(10 + slope * t + gas_mbar * (1 - std::exp(-t / 50)) + 0.3 * std::sin(7 * t)));
  }
  return record;
}

Record pumped() {
  Record record;
  for (double t = 0; t <= 120; t += 2) {
    record.times_s.push_back(t);
    record.values.push_back(std::round(20 + 990 * std::exp(-t / 12)));
  }
  return record;
}

/// From the room to 900 °C, a reading every 5 s in whole kelvins.
Record heated() {
  Record record;
  for (double t = 0; t <= 520; t += 5) {
    record.times_s.push_back(t);
    record.values.push_back(std::round(2020 - 1990 * std::exp(-0.0011 * t) + 0.5 * std::sin(3 * t)));
  }
  return record;
}

void judging_a_leak_beside_gas(benchmark::State& state) {
  const Record record = risen(0.05, 12);
  for (auto _ : state) benchmark::DoNotOptimize(judge_rise(record.times_s, record.values, 21).verdict);
}
BENCHMARK(judging_a_leak_beside_gas)->Unit(benchmark::kMillisecond);

void judging_water(benchmark::State& state) {
  const Record record = risen(0, 14);
  for (auto _ : state) benchmark::DoNotOptimize(judge_rise(record.times_s, record.values, 21).verdict);
}
BENCHMARK(judging_water)->Unit(benchmark::kMillisecond);

void judging_a_pump_down(benchmark::State& state) {
  const Record record = pumped();
  for (auto _ : state) {
    const PumpDown pump = fit_pump_down(record.times_s, record.values);
    benchmark::DoNotOptimize(pump_down_doubt(record.times_s, record.values, pump));
  }
}
BENCHMARK(judging_a_pump_down)->Unit(benchmark::kMillisecond);

void judging_a_heating_run(benchmark::State& state) {
  const Record record = heated();
  const GainAndLoss when_new{2.4, 0.0012};
  for (auto _ : state) benchmark::DoNotOptimize(judge_heating_run(record.times_s, record.values, 21, 228, 230, when_new).verdict);
}
BENCHMARK(judging_a_heating_run)->Unit(benchmark::kMillisecond);

/// As after the third wire, with the next level still to be sought.
void answering_after_a_wire(benchmark::State& state) {
  const MeltPrior prior{959.65, 959.65, 12, std::nullopt, 0.02};
  const std::vector<MeltTrial> trials{{960, false}, {969, false}, {976, true}};
  for (auto _ : state) benchmark::DoNotOptimize(estimate_melt_threshold(prior, trials).next_display_C);
}
BENCHMARK(answering_after_a_wire)->Unit(benchmark::kMillisecond);

/// All charts, verdict, run lengths and forecast. The goal is 50 ms.
void charting_ten_years_of_daily_checks(benchmark::State& state) {
  std::vector<heatwork::furnace_care::ChartedCheck> checks(3652);
  for (std::size_t i = 0; i < checks.size(); ++i) {
    checks[i].name = "check-" + std::to_string(i);
    checks[i].day = static_cast<double>(i);
    checks[i].error_K = 1 + 0.35 * (static_cast<double>(i * 37 % 11) - 5);
    checks[i].uncertainty_K = 1.6;
  }
  for (auto _ : state) benchmark::DoNotOptimize(heatwork::furnace_care::chart_checks(checks, 10).outcome);
}
BENCHMARK(charting_ten_years_of_daily_checks)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
