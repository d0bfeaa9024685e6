// Simulated years of checks of one furnace: nothing changes, it drifts, it steps; with the noise, steps, gaps, slips and wrongly stated
// uncertainties of real checks. Verdicts are counted.
#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

#include "metrology/drift_verdict.h"
#include "simulated_bench.h"

namespace heatwork::tests {
namespace {

using metrology::DriftChange;
using metrology::DriftPoint;

/// The days somebody came round to it: planned ones shifted, some left out, once in a while a long holiday.
std::vector<double> days_of(SimulatedBench& bench) {
  const bool weekly = bench.uniform() < 0.3;
  const double every = weekly ? 7 : 30;
  const int planned = static_cast<int>(weekly ? bench.between(40, 110) : bench.between(24, 60));
  const int holiday = bench.uniform() < 0.3 ? static_cast<int>(bench.between(5, planned - 8)) : -10;
  std::vector<double> days;
  for (int i = 0; i < planned; ++i) {
    if (bench.uniform() < 0.12 || (i >= holiday && i < holiday + 3)) continue;
    days.push_back(std::round(every * i + bench.between(-0.15, 0.15) * every));
  }
  return days;
}

/// Walks through the record check by check and changes the furnace on the way, which no estimator does.
std::vector<DriftPoint> record_of(DriftChange change, double least_K, double most_K, SimulatedBench& bench) {
  const std::vector<double> days = days_of(bench);
  const double whole = days.back() - days.front(), size = (bench.uniform() < 0.5 ? -1 : 1) * bench.between(least_K, most_K);
  const double begins = days.front() + whole * (change == DriftChange::drift ? bench.between(0, 0.4) : bench.between(0.2, 0.8));
  const double rate = size / (days.back() - begins), stated_u = bench.between(1.2, 3.0), process = bench.between(0.8, 2.0);
  const double truly = std::exp(0.15 * bench.normal()), display = bench.uniform() < 0.7 ? 1 : 0.1, first = bench.between(-6, 6);
  std::vector<DriftPoint> out;
  for (const double day : days) {
    double offset = first;
    if (change == DriftChange::drift && day > begins) offset += rate * (day - begins);
    if (change == DriftChange::step && day > begins) offset += size;
    const double u = stated_u * bench.between(0.8, 1.25), slip = bench.uniform() < 0.01 ? bench.between(-20, 20) : 0;
    const double shown = bench.shown(offset + process * bench.normal() + slip, u * truly, display);
    out.push_back({day, shown, u});
  }
  return out;
}

struct Counted {
  int right = 0, open = 0, wrong = 0;
};

constexpr int count = 500;  // a fifth of a second, so no smaller count for every day

Counted counted(DriftChange truth, double least_K, double most_K, SimulatedBench& bench) {
  Counted out;
  for (int i = 0; i < count; ++i) {
    const DriftChange found = metrology::judge_drift(record_of(truth, least_K, most_K, bench)).change;
    (found == truth ? out.right : found == DriftChange::cannot_tell ? out.open : out.wrong) += 1;
  }
  return out;
}

constexpr std::array<DriftChange, 3> truths = {DriftChange::none, DriftChange::drift, DriftChange::step};
constexpr std::array<const char*, 3> words = {"no change", "drift", "step"};

TEST(DriftSimulation, VerdictsAreRightOrCannotTell) {
  SimulatedBench bench(20983);
  for (std::size_t kind = 0; kind < truths.size(); ++kind) {
    const Counted found = counted(truths[kind], 7, 16, bench);
    const auto figure = [&](std::size_t number, const std::string& name, int of) {
      const std::string tail = number == 1 ? "" : "_" + std::to_string(number);
      RecordProperty("figure" + tail, name + words[kind]);
      RecordProperty("figure_value" + tail, std::to_string(static_cast<double>(of) / count));
      RecordProperty("figure_unit" + tail, "1, of 500 records of checks over years");
    };
    figure(2 * kind + 1, "right verdicts, checks with ", found.right);
    figure(2 * kind + 2, "wrong firm verdicts, checks with ", found.wrong);
    EXPECT_GE(found.right, 0.80 * count) << words[kind];
    EXPECT_LE(found.wrong, 0.05 * count) << words[kind];
    std::printf("%s: right %d, cannot tell %d, wrong %d of %d\n", words[kind], found.right, found.open, found.wrong, count);
  }
}

TEST(DriftSimulation, AChangeTooSmallToMatterIsSeldomCalledAnother) {
  SimulatedBench bench(20984);
  for (const std::size_t kind : {std::size_t{1}, std::size_t{2}}) {
    const Counted found = counted(truths[kind], 4, 7, bench);
    const std::string tail = kind == 1 ? "" : "_2";
    RecordProperty("figure" + tail, std::string("wrong firm verdicts, checks with a small ") + words[kind]);
    RecordProperty("figure_value" + tail, std::to_string(static_cast<double>(found.wrong) / count));
    RecordProperty("figure_unit" + tail, "1, of 500 records; 4 to 7 K, less than what matters");
    EXPECT_LE(found.wrong, 0.12 * count) << words[kind];
    std::printf("small %s: right %d, cannot tell %d, wrong %d of %d\n", words[kind], found.right, found.open, found.wrong, count);
  }
}

}  // namespace
}  // namespace heatwork::tests
