// Published behaviour of fired porcelain (P) and the reference scenarios of one firing (S).
#include "physics/powder.h"

#include <array>
#include <cmath>

#include "evidence_row.h"
#include "physics/heat_work.h"
#include "physics/levelling.h"
#include "physics/radiation.h"
#include "physics/sintering.h"
#include "powder_scenario.h"

namespace heatwork::reference {
namespace {

using namespace physics;

constexpr const char* computed_apart = "computed-here: the same equations solved by a separate program";

double final_density(const PowderProperties& powder, const Scenario& scenario) {
  return 1.0 - powder_porosity(powder, fired(powder, scenario));
}

TEST(sintering, P1) {
  Evidence row("vines-semmelman-1957", "%", "validation");
  row.between(porosity_percent(metal_ceramic(), s3), 4.0, 7.0);
  row.between(porosity_percent(metal_ceramic(), s1), 0.1, 0.6);
}

TEST(sintering, P3) {
  Evidence row("fredericci-2011, 10 against 55 K/min in vacuum", "1", "validation");
  Scenario slow = s1;
  slow.rate_K_per_min = 10.0;
  row.within_percent(final_density(metal_ceramic(), slow), final_density(metal_ceramic(), s1), 0.3);
}

TEST(sintering, P4) {
  Evidence row("fredericci-2011, dense 50 K below the recommended temperature", "1", "validation");
  Scenario lower = s1;
  lower.peak_C -= 50.0;
  row.within_percent(final_density(metal_ceramic(), lower), final_density(metal_ceramic(), s1), 0.5);
}

TEST(sintering, P8) {
  Evidence row("skinner-phillips-1967", "%", "validation");
  PowderProperties powder = metal_ceramic();
  powder.start_relative_density = 0.60;
  row.between(100.0 * (1.0 - 0.60 / final_density(powder, s1)), 36.0, 40.0);
  row.between(100.0 * (1.0 - 0.60 / final_density(powder, s3)), 36.0, 40.0);
}

TEST(sintering, P9) {
  Evidence row("evans-1990", "1", "validation");
  PowderProperties loose = metal_ceramic();
  PowderProperties tight = metal_ceramic();
  loose.start_relative_density = 0.55;
  tight.start_relative_density = 0.62;
  row.within_percent(final_density(loose, s1), final_density(tight, s1), 0.3);
}

TEST(sintering, P10) {
  Evidence row("nagasawa-2001, change from the second to the tenth firing", "points", "validation");
  for (const Scenario& scenario : {s1, s3}) {
    const PowderProperties powder = metal_ceramic();
    const Firing firing = fire(scenario);
    PowderState state = start_powder(powder);
    double second = 0.0;
    double last = 0.0;
    for (int number = 1; number <= 10; ++number) {
      advance_powder(powder, state, firing.times_s, firing.temperatures_K, firing.pressures_Pa);
      last = 100.0 * powder_porosity(powder, state);
      if (number == 2) second = last;
    }
    row.near(last - second, 0.0, 0.1);
  }
}

TEST(sintering, P11) {
  Evidence row("gardner-2018, wadsworth-2016", "%", "validation");
  row.between(porosity_percent(metal_ceramic(), s3), 2.0, 6.0);
}

// A piece that lags its muffle by radiation alone; a heavier load lags more.
double heat_work_behind_lag(double heat_capacity_J_per_m2K) {
  const Firing firing = fire(s1);
  std::vector<double> times_s{0.0};
  std::vector<double> piece_K{firing.temperatures_K.front()};
  const double end_s = firing.times_s.back();
  for (double time_s = 0.0; time_s < end_s; time_s += 0.5) {
    const double muffle_K = std::min(firing.temperatures_K.front() + 55.0 / 60.0 * time_s, 930.0 + zero_celsius_K);
    piece_K.push_back(piece_K.back() + 0.5 * radiated_W_per_m2(0.8, muffle_K, piece_K.back()) / heat_capacity_J_per_m2K);
    times_s.push_back(time_s + 0.5);
  }
  return powder_work(metal_ceramic(), times_s, piece_K).heat_work;
}

TEST(sintering, P13) {
  Evidence row("machado-2023, sign: the heavier load is fired less", "sign", "validation");
  const double light = heat_work_behind_lag(5760.0);
  const double heavy = heat_work_behind_lag(2.0 * 5760.0);
  row.near(heavy < light ? 1.0 : -1.0, 1.0, 0.0);
}

TEST(sintering, P14) {
  Evidence row("haralur-2012, ground and self-glazed", "um", "calibration");
  const PowderProperties powder = metal_ceramic();
  const double fluidity = fired(powder, s1).fluidity_per_Pa;
  row.near(levelled_ra_um(ground_surface, 1000.0, powder.surface_tension_N_per_m, 0.0, 0.03), 2.88, 0.01);
  row.between(levelled_ra_um(ground_surface, 1000.0, powder.surface_tension_N_per_m, fluidity, 0.03), 0.3, 0.6);
}

TEST(sintering, S1) {
  Evidence row(computed_apart, "%");
  row.near(porosity_percent(metal_ceramic(), s1), 0.145, 0.08);
}

TEST(sintering, S2) {
  Evidence row(computed_apart, "%");
  row.near(porosity_percent(metal_ceramic(), s2), 0.34, 0.1);
}

TEST(sintering, S3) {
  Evidence row(computed_apart, "%");
  row.near(porosity_percent(metal_ceramic(), s3), 5.26, 0.7);
}

TEST(sintering, S4) {
  Evidence row(computed_apart, "%");
  row.near(porosity_percent(metal_ceramic(), s4), 0.29, 0.1);
}

TEST(sintering, S9) {
  const PowderState state = fired(metal_ceramic(), s9);
  Evidence row(computed_apart, "%");
  row.near(100.0 * powder_porosity(metal_ceramic(), state), 0.27, 0.1);
  row.in("um");
  row.within_percent(state.rounding_um, 12.6, 3.0);
  row.in("1");
  row.within_percent(state.levelling_exponent, 1.58, 3.0);
}

TEST(sintering, SmoothSealingGivesFivePercentLess) {
  Evidence row(computed_apart, "share of the hard threshold");
  for (const Scenario& scenario : {s1, s2, s3, s4, s9}) {
    row.near(porosity_percent(metal_ceramic(Sealing::smooth), scenario) / porosity_percent(metal_ceramic(), scenario), 0.95, 0.006);
  }
}

TEST(sintering, Ranking) {
  Evidence row("computed-here: ranking of the scenarios for any coarse share, radius and sealing", "sign");
  int wrong = 0;
  int far = 0;
  for (const Sealing sealing : {Sealing::hard, Sealing::smooth}) {
    for (const double share : {0.2, 0.35, 0.5, 0.7, 0.9}) {
      for (const double radius_um : {10.0, 15.0, 20.0, 30.0, 40.0}) {
        PowderProperties powder = metal_ceramic(sealing);
        powder.coarse_share = share;
        powder.coarse_start_radius_um = radius_um;
        const double p1 = porosity_percent(powder, s1);
        const double p2 = porosity_percent(powder, s2);
        const double p3 = porosity_percent(powder, s3);
        const double p4 = porosity_percent(powder, s4);
        const double p9 = porosity_percent(powder, s9);
        if (!(p3 > p4 && p4 > p9 && p9 > p1 && p2 > p1)) ++wrong;
        if (!(p3 > 5.0 * p4)) ++far;
      }
    }
  }
  row.near(wrong, 0.0, 0.0);
  row.near(far, 0.0, 0.0);
}

TEST(sintering, SealingTemperatures) {
  struct Line {
    Vft vft;
    double factor, sealed_C;
  };
  const std::array<Line, 5> lines{{{{-3.0, 6267.0, 142.2}, 1.71, 805.0},
                                   {{-3.0, 4933.0, 201.1}, 1.14, 719.0},
                                   {{-3.0, 6000.0, 150.0}, 1.14, 775.0},
                                   {{-3.0, 4400.0, 216.7}, 1.14, 681.0},
                                   {{-3.0, 4400.0, 196.7}, 1.0, 659.0}}};
  Evidence row(computed_apart, "C");
  for (const Line& line : lines) {
    PowderProperties powder = metal_ceramic();  // gamma, R, start density and shape of the metal-ceramic class for all
    powder.vft = line.vft;
    powder.crystal_factor = line.factor;
    const Firing firing = fire(s1);
    PowderState state = start_powder(powder);
    PowderTrace trace;
    advance_powder(powder, state, firing.times_s, firing.temperatures_K, firing.pressures_Pa, &trace);
    ASSERT_TRUE(trace.fully_sealed);
    row.near(trace.fully_sealed->temperature_K - zero_celsius_K, line.sealed_C, 0.6);
  }
  Scenario slow = s1;
  slow.rate_K_per_min = 10.0;
  const Firing firing = fire(slow);
  PowderState state = start_powder(metal_ceramic());
  PowderTrace trace;
  advance_powder(metal_ceramic(), state, firing.times_s, firing.temperatures_K, firing.pressures_Pa, &trace);
  ASSERT_TRUE(trace.fully_sealed);
  row.near(trace.fully_sealed->temperature_K - zero_celsius_K, 760.0, 0.6);
}

}  // namespace
}  // namespace heatwork::reference
