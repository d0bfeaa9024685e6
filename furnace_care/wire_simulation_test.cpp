// Simulated furnaces under the guided wire test: a truth and a panel are drawn, wires answer by other code than the estimator's, and what
// the advice does to the chamber is counted. The full count runs where HEATWORK_LONG is set.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "furnace_care/correction.h"
#include "furnace_care/furnace_for_tests.h"
#include "furnace_care/temperature_check.h"

namespace heatwork::furnace_care {
namespace {

int furnaces() {
  return std::getenv("HEATWORK_LONG") != nullptr ? 2000 : 200;
}

/// What a share may miss by at the small count: three standard deviations of a counted share, nothing at the full one.
double slack(double share, int of) {
  return std::getenv("HEATWORK_LONG") != nullptr ? 0 : 3 * std::sqrt(share * (1 - share) / of);
}

class Chance {
 public:
  explicit Chance(unsigned seed) : random_(seed) {}
  double uniform() { return (static_cast<double>(random_() >> 11) + 0.5) * 0x1p-53; }
  double normal() { return std::sqrt(-2 * std::log(uniform())) * std::cos(2 * M_PI * uniform()); }
  double spread_K() {
    constexpr std::array<double, 6> sizes = {1, 1.5, 2, 3, 4, 6}, shares = {.15, .2, .25, .2, .12, .08};
    double left = uniform();
    for (std::size_t i = 0; i < sizes.size(); ++i)
      if ((left -= shares[i]) < 0) return sizes[i];
    return sizes.back();
  }

 private:
  std::mt19937_64 random_;
};

/// A furnace as it is: what its sensor reads too much, and what its panel does with a keyed correction.
struct Panel {
  trade::CorrectionConvention convention;
  double sensor_too_high_K;
  /// The chamber, once the panel is satisfied with a setting.
  [[nodiscard]] double chamber_C(double setting_C, double keyed_K) const {
    const bool shown = convention == trade::CorrectionConvention::added_to_display;
    const double sensor_C = shown ? setting_C - keyed_K : setting_C + keyed_K;
    return sensor_C - sensor_too_high_K;
  }
};

struct Counted {
  int all = 0, corrected = 0, improved = 0, stopped = 0, covered = 0, most_firings = 0;
  double firings = 0;
};

/// One furnace from the first wire to the outcome.
WireTold fire_until_told(Chance& chance, const trade::Furnace& furnace, const Panel& panel, double keyed_K, Counted& counted) {
  trade::WireTest wire = vacuum_wire();
  std::vector<trade::WireTrial> trials;
  const double melts_C = 959.48 + 0.17 + 0.6 * chance.normal(), spread_K = chance.spread_K();
  WireTold told = tell_wire_test({furnace, wire, trials, std::nullopt, keyed_K, std::nullopt});
  while (told.next_display_C) {
    const double display_C = *told.next_display_C;
    const bool says_nothing = chance.uniform() < 0.02;
    const double here_C = panel.chamber_C(display_C, keyed_K) + spread_K * chance.normal();
    const bool melted = says_nothing ? chance.uniform() < 0.5 : here_C > melts_C;
    trials.push_back(trial(display_C, melted));
    told = tell_wire_test({furnace, wire, trials, std::nullopt, keyed_K, std::nullopt});
  }
  counted.most_firings = std::max(counted.most_firings, static_cast<int>(trials.size()));
  counted.firings += static_cast<double>(trials.size());
  return told;
}

double error_of(const Panel& panel, double keyed_K) {
  return 930 - panel.chamber_C(930, keyed_K);
}

Counted simulate(unsigned seed) {
  Chance chance(seed);
  Counted counted;
  trade::Furnace furnace = own_furnace();
  for (; counted.all < furnaces(); ++counted.all) {
    const double keyed_K = std::round(4 * chance.normal());
    const double error_K = 12 * chance.normal();
    std::array<double, 2> left_K{};
    bool was_corrected = false;
    const Chance same_luck = chance;
    for (int i = 0; i < 2; ++i) {
      chance = same_luck;
      furnace.correction_convention = given(static_cast<trade::CorrectionConvention>(i));
      const bool shown = furnace.correction_convention.value == trade::CorrectionConvention::added_to_display;
      const Panel panel{furnace.correction_convention.value, shown ? error_K - keyed_K : error_K + keyed_K};
      EXPECT_NEAR(error_of(panel, keyed_K), error_K, 1e-9);
      Counted of_this;
      const WireTold told = fire_until_told(chance, furnace, panel, keyed_K, i == 0 ? counted : of_this);
      was_corrected = told.verdict.correct || told.verdict.stop_use;
      const Keying keying = keying_for(furnace, keyed_K, told.found->error_K);
      left_K[static_cast<std::size_t>(i)] = error_of(panel, keying.to_key_K);
      if (i == 0) counted.stopped += told.verdict.stop_use ? 1 : 0;
      if (i == 0) counted.covered += error_K >= told.found->range_low_K && error_K <= told.found->range_high_K ? 1 : 0;
    }
    EXPECT_NEAR(left_K[0], left_K[1], 1e-9) << "both conventions leave the same true temperature";
    if (!was_corrected) continue;
    ++counted.corrected;
    counted.improved += std::abs(left_K[0]) < std::abs(error_K) ? 1 : 0;
  }
  return counted;
}

TEST(WireSimulation, WhereACorrectionIsAdvisedTheTrueErrorGetsSmaller) {
  const Counted found = simulate(90211);
  ASSERT_GT(found.corrected, found.all / 3);
  const double improved = static_cast<double>(found.improved) / found.corrected;
  const double covered = static_cast<double>(found.covered) / found.all;
  RecordProperty("figure", "share of advised corrections that made the true error smaller, whole check");
  RecordProperty("figure_value", std::to_string(improved));
  RecordProperty("figure_unit", "1");
  RecordProperty("figure_2", "share of true errors inside the whole range, k = 2");
  RecordProperty("figure_value_2", std::to_string(covered));
  RecordProperty("figure_unit_2", "1");
  RecordProperty("figure_3", "firings of a whole check on average");
  RecordProperty("figure_value_3", std::to_string(found.firings / found.all));
  RecordProperty("figure_unit_3", "1");
  EXPECT_GE(improved, 0.95 - slack(0.95, found.corrected));
  EXPECT_GE(covered, 0.95 - slack(0.95, found.all));
  EXPECT_LE(found.most_firings, 5);
}

}  // namespace
}  // namespace heatwork::furnace_care
