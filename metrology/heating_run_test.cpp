#include "metrology/heating_run.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <vector>

namespace heatwork::metrology {
namespace {

constexpr GainAndLoss fresh{2.4, 0.0012};

struct Recorded {
  std::vector<double> t, T;
};

Recorded recorded(const GainAndLoss& muffle, double cap_K_per_s = 1e9, double water_K = 0) {
  Recorded out;
  double T = 20;
  for (int i = 0; i < 20000 && T < 900; ++i) {
    if (i % 50 == 0) {
      out.t.push_back(0.1 * i);
      out.T.push_back(std::round(T));
    }
    double rate = std::min(cap_K_per_s, muffle.gain_K_per_s - muffle.loss_per_s * (T - 20));
    if (water_K > 0 && T > 80 && T < 120) rate /= 1 + water_K / 40;
    T += 0.1 * rate;
  }
  return out;
}

TEST(HeatingRun, AHealthyMuffleIsHealthyAtAnyMains) {
  for (const double volts : {205.0, 230.0, 245.0}) {
    const double factor = volts * volts / 230 / 230;
    const Recorded run = recorded({fresh.gain_K_per_s * factor, fresh.loss_per_s});
    const HeatingRun found = judge_heating_run(run.t, run.T, 20, volts, 230, fresh);
    EXPECT_EQ(found.verdict, MuffleVerdict::healthy) << volts;
    EXPECT_NEAR(*found.power_health, 1, 0.02);
  }
}

TEST(HeatingRun, FaultsAreToldApart) {
  const auto verdict = [](const Recorded& run) { return judge_heating_run(run.t, run.T, 20, 230, 230, fresh).verdict; };
  EXPECT_EQ(verdict(recorded({fresh.gain_K_per_s * 0.89, fresh.loss_per_s})), MuffleVerdict::element_ageing);
  EXPECT_EQ(verdict(recorded({fresh.gain_K_per_s * 0.75, fresh.loss_per_s})), MuffleVerdict::replace_element);
  EXPECT_EQ(verdict(recorded({fresh.gain_K_per_s, fresh.loss_per_s * 1.4})), MuffleVerdict::insulation);
  EXPECT_EQ(verdict(recorded(fresh, 1.1)), MuffleVerdict::held_back);
}

TEST(HeatingRun, ACapThatEndsOnTheWayIsFound) {
  const Recorded run = recorded(fresh, 1.8);  // full power falls below 1.8 K/s at 520 °C
  const HeatingRun found = judge_heating_run(run.t, run.T, 20, 230, 230, fresh);
  EXPECT_EQ(found.verdict, MuffleVerdict::held_back);
  EXPECT_NEAR(*found.held_until_C, 520, 25);
}

TEST(HeatingRun, WithoutItsYouthNothingIsTold) {
  const Recorded run = recorded(fresh);
  const HeatingRun found = judge_heating_run(run.t, run.T, 20, 230, 230, std::nullopt);
  EXPECT_EQ(found.verdict, MuffleVerdict::cannot_tell);
  EXPECT_FALSE(found.power_health);
}

TEST(HeatingRun, WaterShowsAsADip) {
  const Recorded dry = recorded(fresh), wet = recorded(fresh, 1e9, 60);
  EXPECT_NEAR(*judge_heating_run(dry.t, dry.T, 20, 230, 230, fresh).moisture_dip_K, 0, 4);
  EXPECT_NEAR(*judge_heating_run(wet.t, wet.T, 20, 230, 230, fresh).moisture_dip_K, 60, 6);
  EXPECT_NEAR(water_of_dip_g(49, 500), 10, 1e-9);
}

TEST(HeatingRun, Refuses) {
  const Recorded run = recorded(fresh);
  EXPECT_THROW(judge_heating_run(run.t, run.T, 20, 100, 230, fresh), std::domain_error);
  EXPECT_THROW(judge_heating_run(run.t, run.T, 90, 230, 230, fresh), std::domain_error);
  EXPECT_THROW(judge_heating_run(std::vector<double>{0, 10}, std::vector<double>{20, 30}, 20, 230, 230, fresh), std::domain_error);
  std::vector<double> back = run.t;
  back[5] = back[4];
  EXPECT_THROW(judge_heating_run(back, run.T, 20, 230, 230, fresh), std::domain_error);
  EXPECT_THROW(heating_time_s({1, 0.002}, 20, 500, 900), std::domain_error);
  EXPECT_THROW(element_resistance_factor(1500), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
