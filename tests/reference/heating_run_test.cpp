// The muffle at full power against values computed apart, and the wire of its element against its maker's table.
#include "metrology/heating_run.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "evidence_row.h"

namespace heatwork {
namespace {

using namespace metrology;
using reference::Evidence;

struct Muffle {
  double volts, resistance, insulation;
  [[nodiscard]] GainAndLoss now() const { return {1200 * volts * volts / resistance / 500, 0.6 * insulation / 500}; }
};

TEST(HeatingRun, metrology_P23) {
  struct Row {
    Muffle muffle;
    double low_s, middle_s, high_s, change_percent;
  };
  const std::array<Row, 8> rows = {{{{1, 1, 1}, 194.7, 254.5, 77.9, 0},
                                    {{0.90, 1, 1}, 250.6, 360.1, 121.0, 41.5},
                                    {{0.95, 1, 1}, 219.8, 299.5, 95.3, 17.7},
                                    {{1.10, 1, 1}, 156.2, 192.4, 55.9, -24.4},
                                    {{1, 1.05, 1}, 206.2, 274.6, 85.6, 7.9},
                                    {{1, 1.10, 1}, 217.9, 295.9, 93.9, 16.3},
                                    {{1, 1.20, 1}, 242.1, 342.6, 113.3, 34.6},
                                    {{1, 1, 1.2}, 201.7, 285.5, 94.4, 12.2}}};
  const double base_s = heating_time_s(rows[0].muffle.now(), 20, 500, 900);
  Evidence row("lumped muffle, computed apart", "s");
  for (const Row& each : rows) {
    row.in("s");
    row.near(heating_time_s(each.muffle.now(), 20, 100, 500), each.low_s, 0.1);
    row.near(heating_time_s(each.muffle.now(), 20, 500, 900), each.middle_s, 0.1);
    row.near(heating_time_s(each.muffle.now(), 20, 900, 1000), each.high_s, 0.1);
    row.in("%");
    row.near(100 * (heating_time_s(each.muffle.now(), 20, 500, 900) / base_s - 1), each.change_percent, 0.06);
  }
  EXPECT_NEAR(heating_limit_C(rows[0].muffle.now(), 20), 2020, 1e-9);
}

TEST(HeatingRun, metrology_P24) {
  Evidence row("step response of dead time 40 s and time constant 300 s, computed apart", "s");
  const StepResponse late = step_by_two_late_times(170.6227, 615.1968), early = step_by_two_early_times(139.8038, 339.9017);
  row.near(late.time_constant_s, 297.8647, 1e-3);
  row.near(late.dead_time_s, 43.4024, 1e-3);
  row.near(early.time_constant_s, 300.1468, 1e-3);
  row.near(early.dead_time_s, 39.7549, 1e-3);
}

TEST(HeatingRun, metrology_P25) {
  Evidence row("fecral-datasheet; power computed apart", "ohm");
  row.near(48 * 1.035, 49.68, 0.1);
  row.in("W");
  row.near(element_power_W(230, 48, 1.035), 1064.8, 0.1);
  row.in("1");
  row.near(element_resistance_factor(950), 1.035, 1e-9);
  row.near(element_resistance_factor(700), 1.02, 1e-9);
  row.near(element_resistance_factor(1400), 1.05, 1e-9);
}

TEST(HeatingRun, GivesBackTheGainAndLossOfAnExactRun) {
  const GainAndLoss muffle = Muffle{1, 1, 1}.now();
  std::vector<double> t, T;
  for (int i = 0; i <= 90; ++i) {
    t.push_back(7.0 * i);
    T.push_back(2020 - 1990 * std::exp(-muffle.loss_per_s * t.back()));
  }
  const HeatingRun found = judge_heating_run(t, T, 20, 220, 230, muffle);
  Evidence row("closed form of the lumped muffle", "K/s");
  row.near(found.measured.gain_K_per_s, 2.4, 1e-6);
  row.near(found.gain_at_nominal_K_per_s, 2.4 * 230 * 230 / 220 / 220, 1e-6);
  row.in("1/s");
  row.near(found.measured.loss_per_s, 0.0012, 1e-9);
  row.in("C");
  row.near(found.limit_C, 2020, 1e-3);
  row.in("1");
  row.near(*found.loss_health, 1, 1e-6);
}

}  // namespace
}  // namespace heatwork
