// Simulated runs at full power: a sound muffle, low mains, a worn element, worn insulation and a capped rate, with the noise, steps and
// gaps of a display. Verdicts are counted.
#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

#include "metrology/heating_run.h"
#include "simulated_bench.h"
#include "simulated_muffle.h"

namespace heatwork::tests {
namespace {

using metrology::MuffleVerdict;

enum class Fault { none, low_mains, element, dead_element, insulation, capped };

constexpr std::array<Fault, 6> faults = {Fault::none,         Fault::low_mains,  Fault::element,
                                         Fault::dead_element, Fault::insulation, Fault::capped};
constexpr std::array<MuffleVerdict, 6> right_ones = {MuffleVerdict::healthy,        MuffleVerdict::healthy,
                                                     MuffleVerdict::element_ageing, MuffleVerdict::replace_element,
                                                     MuffleVerdict::insulation,     MuffleVerdict::held_back};
constexpr std::array<const char*, 6> words = {"sound", "low mains", "worn element", "spent element", "worn insulation", "capped rate"};

struct Simulated {
  std::vector<double> times_s, temperatures_C;
  double room_C = 0, mains_V = 230;
  metrology::GainAndLoss when_new{};
  double slowed = 1;  ///< time from 500 to 900 °C over that when new, at equal mains
};

double seconds_500_to_900(double gain, double loss, double room_C) {
  double seconds = 0;
  for (double T = 500; T < 900; T += 0.5) seconds += 0.5 / (gain - loss * (T + 0.25 - room_C));
  return seconds;
}

/// Steps of a tenth of a second through dT/dt, not the estimator's closed form.
Simulated run_of(Fault fault, SimulatedBench& bench) {
  Simulated out;
  out.room_C = std::round(bench.between(17, 27));
  out.when_new = {bench.between(1.8, 3.0), bench.between(0.0009, 0.0014)};
  out.mains_V = fault == Fault::low_mains ? std::round(bench.between(205, 216)) : std::round(bench.between(224, 236));
  double power = std::pow(out.mains_V / 230, 2), loss = out.when_new.loss_per_s, cap = 1e9;
  if (fault == Fault::element) power *= bench.between(0.86, 0.89);
  if (fault == Fault::dead_element) power *= bench.between(0.70, 0.80);
  if (fault == Fault::insulation) loss *= bench.between(1.25, 1.6);
  if (fault == Fault::capped) cap = out.when_new.gain_K_per_s * bench.between(0.35, 0.6);
  const bool coarse = bench.uniform() < 0.7;
  const double every_s = bench.uniform() < 0.5 ? 5 : 10;
  double T = out.room_C + bench.between(0, 60), next_s = 0;
  for (double t = 0; t < 3000 && T < 900; t += 0.1) {
    if (t >= next_s) {
      if (bench.uniform() > 0.1) {
        out.times_s.push_back(t);
        out.temperatures_C.push_back(bench.shown(T, 0.7, coarse ? 1 : 0.1));
      }
      next_s += every_s;
    }
    T += 0.1 * std::min(cap, out.when_new.gain_K_per_s * power - loss * (T - out.room_C));
  }
  const double gain = out.when_new.gain_K_per_s;
  out.slowed = seconds_500_to_900(gain * power / std::pow(out.mains_V / 230, 2), loss, out.room_C) /
               seconds_500_to_900(gain, out.when_new.loss_per_s, out.room_C);
  return out;
}

TEST(HeatingSimulation, VerdictsAreRightOrCannotTell) {
  SimulatedBench bench(75251);
  const int count = simulated(500, 40);
  for (std::size_t kind = 0; kind < faults.size(); ++kind) {
    int right = 0, open = 0;
    for (int i = 0; i < count; ++i) {
      const Simulated run = run_of(faults[kind], bench);
      const MuffleVerdict verdict =
          metrology::judge_heating_run(run.times_s, run.temperatures_C, run.room_C, run.mains_V, 230, run.when_new).verdict;
      // A worn element that takes 1.3 times as long from 500 to 900 °C counts as spent.
      const bool slow = faults[kind] == Fault::element && run.slowed > 1.3;
      const MuffleVerdict expected = slow ? MuffleVerdict::replace_element : right_ones[kind];
      const bool at_the_limit = faults[kind] == Fault::element && std::abs(run.slowed - 1.3) < 0.03 &&
                                (verdict == MuffleVerdict::replace_element || verdict == MuffleVerdict::element_ageing);
      right += verdict == expected || at_the_limit ? 1 : 0;
      open += verdict == MuffleVerdict::cannot_tell ? 1 : 0;
    }
    const std::string tail = kind == 0 ? "" : "_" + std::to_string(kind + 1);
    RecordProperty("figure" + tail, std::string("right verdicts, ") + words[kind]);
    RecordProperty("figure_value" + tail, std::to_string(static_cast<double>(right) / count));
    RecordProperty("figure_unit" + tail, "1");
    EXPECT_GE(right, 0.80 * count) << words[kind];
    EXPECT_LE(count - right - open, 0.05 * count) << words[kind];
    std::printf("%s: right %d, cannot tell %d of %d\n", words[kind], right, open, count);
  }
}

struct Judged {
  MuffleVerdict verdict;
  bool spent;  ///< the wire carries so little that it must be replaced, by its limit or by its heat-up time
  bool near;   ///< so near that limit that both words are right
};

/// A muffle run when new, then again with its fault: what it was when new is known by its own record alone.
Judged muffle_of(Fault fault, SimulatedBench& bench) {
  Muffle muffle;
  muffle.power_W = bench.between(900, 1500);
  muffle.capacity_J_per_K = muffle.power_W / bench.between(1.8, 3.0);
  muffle.capacity_rises_per_K = bench.between(0, 0.0002);
  muffle.lost_W_per_K = muffle.capacity_J_per_K * bench.between(0.0007, 0.0011);
  muffle.radiated_W_per_K4 = muffle.capacity_J_per_K * bench.between(0, 1.2e-13);
  muffle.lag_s = bench.between(2, 8);
  RunReading reading;
  reading.room_C = std::round(bench.between(17, 27));
  reading.start_C = reading.room_C + bench.between(0, 60);
  reading.mains_V = std::round(bench.between(224, 236));
  reading.step_K = bench.uniform() < 0.7 ? 1 : 0.1;
  reading.every_s = bench.uniform() < 0.5 ? 5 : 10;
  reading.gap_s = bench.between(0, 40);
  const auto judged = [&](const Muffle& now, const std::optional<metrology::GainAndLoss>& when_new) {
    const HeatingRecord run = heated(now, reading, bench);
    return metrology::judge_heating_run(run.times_s, run.temperatures_C, reading.room_C, reading.mains_V, 230, when_new);
  };
  const metrology::HeatingRun first = judged(muffle, std::nullopt);
  const metrology::GainAndLoss when_new{first.gain_at_nominal_K_per_s, first.measured.loss_per_s};
  reading.room_C = std::round(bench.between(17, 27));
  reading.mains_V = fault == Fault::low_mains ? std::round(bench.between(205, 216)) : std::round(bench.between(224, 236));
  if (fault == Fault::element) muffle.wire = bench.between(1.12, 1.17);
  if (fault == Fault::dead_element) muffle.wire = bench.between(1.25, 1.4);
  if (fault == Fault::insulation) muffle.lining = bench.between(1.25, 1.6);
  if (fault == Fault::capped) muffle.most_K_per_s = muffle.power_W / muffle.capacity_J_per_K * bench.between(0.35, 0.6);
  const double slowed = seconds_500_to_900(when_new.gain_K_per_s / muffle.wire, when_new.loss_per_s, reading.room_C) /
                        seconds_500_to_900(when_new.gain_K_per_s, when_new.loss_per_s, reading.room_C);
  return {judged(muffle, when_new).verdict, slowed > 1.3 || muffle.wire > 1 / 0.85,
          std::abs(slowed - 1.3) < 0.05 || std::abs(1 / muffle.wire - 0.85) < 0.02};
}

TEST(HeatingSimulation, MufflesSteppedThroughTheirPhysicsAreJudgedRightOrNotAtAll) {
  SimulatedBench bench(751943);
  const int count = simulated(500, 100);
  for (std::size_t kind = 0; kind < faults.size(); ++kind) {
    int right = 0, open = 0;
    for (int i = 0; i < count; ++i) {
      const Judged run = muffle_of(faults[kind], bench);
      const bool worn = run.verdict == MuffleVerdict::element_ageing || run.verdict == MuffleVerdict::replace_element;
      const MuffleVerdict expected = faults[kind] == Fault::element && run.spent ? MuffleVerdict::replace_element : right_ones[kind];
      const bool either = faults[kind] == Fault::element && run.near && worn;
      right += run.verdict == expected || either ? 1 : 0;
      open += run.verdict == MuffleVerdict::cannot_tell ? 1 : 0;
    }
    const std::string tail = kind == 0 ? "" : "_" + std::to_string(2 * kind + 1), next = "_" + std::to_string(2 * kind + 2);
    RecordProperty("figure" + tail, std::string("muffles stepped through their physics, right verdicts: ") + words[kind]);
    RecordProperty("figure_value" + tail, std::to_string(static_cast<double>(right) / count));
    RecordProperty("figure_unit" + tail, "1, at least 0.80");
    RecordProperty("figure" + next, std::string("muffles stepped through their physics, wrong firm verdicts: ") + words[kind]);
    RecordProperty("figure_value" + next, std::to_string(static_cast<double>(count - right - open) / count));
    RecordProperty("figure_unit" + next, "1, at most 0.05");
    EXPECT_GE(right, 0.80 * count) << words[kind];
    EXPECT_LE(count - right - open, 0.05 * count) << words[kind];
    std::printf("%s: right %d, cannot tell %d of %d\n", words[kind], right, open, count);
  }
}

}  // namespace
}  // namespace heatwork::tests
