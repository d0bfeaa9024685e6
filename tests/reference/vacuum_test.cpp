// Vacuum: the air by altitude, dials, pump-down and rate of rise against values computed apart and published ones.
#include <gtest/gtest.h>

#include <array>
#include <stdexcept>
#include <vector>

#include "evidence_row.h"
#include "metrology/atmosphere.h"
#include "metrology/pump_down.h"
#include "metrology/rate_of_rise.h"

namespace heatwork {
namespace {

using namespace metrology;
using reference::Evidence;

TEST(Vacuum, metrology_P17) {
  constexpr std::array<std::array<double, 3>, 7> table = {{{0, 1013.25, 722.5},
                                                           {500, 954.61, 678.5},
                                                           {1000, 898.76, 636.6},
                                                           {1500, 845.60, 596.7},
                                                           {2000, 795.01, 558.8},
                                                           {2500, 746.92, 522.7},
                                                           {3000, 701.21, 488.4}}};
  Evidence row("us-standard-atmosphere-1976", "hPa");
  for (const auto& [altitude_m, air_hPa, dial_mmHg] : table) {
    row.near(standard_atmosphere_Pa(altitude_m) / 100, air_hPa, 0.02);
    EXPECT_NEAR(absolute_of_dial_Pa(dial_mmHg, DialUnit::mmHg, standard_atmosphere_Pa(altitude_m)) / 100, 50, 0.08);
  }
}

TEST(Vacuum, metrology_P19) {
  Evidence row("dial at sea level, computed apart", "mbar");
  row.near(absolute_of_dial_Pa(720, DialUnit::mmHg, standard_atmosphere_Pa(0)) / 100, 53.33, 0.05);
  EXPECT_THROW(absolute_of_dial_Pa(720, DialUnit::mmHg, standard_atmosphere_Pa(500)), std::domain_error);
}

TEST(Vacuum, metrology_P20) {
  const PumpDown pump{3 / 0.1, 15}, without_limit{3 / 0.1, 0};
  Evidence row("pump-down, computed apart", "mbar");
  row.near(pumped_pressure_mbar(pump, 1013.25, 30), 382.236, 1e-3);
  row.near(pumped_pressure_mbar(pump, 1013.25, 60), 150.098, 1e-3);
  row.near(pumped_pressure_mbar(pump, 1013.25, 120), 33.284, 1e-3);
  row.in("s");
  row.near(pumping_time_s(pump, 1013.25, 50), 100.520, 1e-3);
  row.near(pumping_time_s(without_limit, 1013.25, 50), 90.267, 1e-3);
  const std::array<double, 3> times = {30, 60, 120}, pressures = {382.236, 150.098, 33.284};
  const PumpDown fitted = fit_pump_down(times, pressures);
  row.near(fitted.time_constant_s, 30, 0.01);
  row.in("mbar");
  row.near(fitted.ultimate_mbar, 15, 0.01);
}

TEST(Vacuum, metrology_P21) {
  Evidence row("published sizing example, printed 160", "m3/min");
  row.near(pumping_speed(1000, 1000, 200, 10), 160.94, 0.01);
}

TEST(Vacuum, metrology_P22) {
  const std::array<double, 8> t = {0, 30, 60, 90, 120, 180, 240, 300};
  const std::array<double, 8> leak = {20, 23, 26, 29, 32, 38, 44, 50};
  const std::array<double, 8> gas = {20, 24.722, 27.585, 29.322, 30.376, 31.403, 31.780, 31.919};
  const std::array<double, 8> both = {20, 25.393, 28.891, 31.417, 33.444, 36.853, 39.961, 42.990};
  constexpr double volume_L = 3;
  Evidence row("three records computed apart", "mbar L/s");
  const Rise leaks = judge_rise(t, leak, 25);
  EXPECT_EQ(leaks.verdict, RiseVerdict::leak);
  row.within_percent(*leaks.leak_mbar_per_s * volume_L, 0.300, 2);
  const Rise wet = judge_rise(t, gas, 25), dry = judge_rise(t, gas, 15);
  EXPECT_EQ(wet.verdict, RiseVerdict::water);
  EXPECT_EQ(dry.verdict, RiseVerdict::outgassing);
  row.near(*wet.leak_mbar_per_s * volume_L, 0, 0.003);
  const Rise mixed = judge_rise(t, both, 25);
  EXPECT_EQ(mixed.verdict, RiseVerdict::mixed);
  row.within_percent(*mixed.leak_mbar_per_s * volume_L, 0.150, 2);
  row.in("mbar");
  row.within_percent(*wet.outgassing_mbar, 12.0, 2);
  row.near(*wet.plateau_mbar, 32.0, 0.1);
  row.within_percent(*mixed.outgassing_mbar, 8, 2);
  row.in("s");
  row.within_percent(*wet.outgassing_time_s, 60, 2);
  row.within_percent(*mixed.outgassing_time_s, 45, 2);
  row.in("1");
  row.near(*wet.late_over_early, 0.018, 0.002);
  row.near(*mixed.late_over_early, 0.341, 0.002);
}

}  // namespace
}  // namespace heatwork
