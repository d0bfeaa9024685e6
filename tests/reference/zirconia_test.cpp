// Checks of the sintering of zirconia: V9, V10, V11, V13, the curves it was fitted to, and measurements that took no part in the fit.
#include <algorithm>
#include <array>
#include <cmath>

#include "evidence_row.h"
#include "physics/layer.h"
#include "physics/sintering.h"
#include "physics/zirconia_sintering.h"

namespace heatwork::reference {
namespace {

using namespace physics;

ZirconiaState after(const ZirconiaProperties& properties, const std::vector<double>& times_s, const std::vector<double>& temperatures_C) {
  std::vector<double> temperatures_K;
  for (const double temperature_C : temperatures_C) temperatures_K.push_back(temperature_C + zero_celsius_K);
  ZirconiaState state = start_zirconia(properties);
  advance_zirconia(properties, state, times_s, temperatures_K);
  return state;
}

ZirconiaState ramp(double rate_K_per_min, double top_C) {
  return after({}, {0.0, (top_C - 20.0) / rate_K_per_min * 60.0}, {20.0, top_C});
}

double density(const ZirconiaState& state) {
  return sintered_density(MasterCurve{}, state.log_theta);
}

TEST(zirconia, V9) {
  Evidence row("closed form by the exponential integral, computed apart", "ln s/K");
  struct Line {
    double rate, top_C, log_theta, density;
  };
  const std::array<Line, 4> lines{{{2.0, 1200.0, -61.6298, 0.63831},
                                   {5.0, 1250.0, -60.5139, 0.73162},
                                   {10.0, 1200.0, -63.2393, 0.54896},
                                   {20.0, 1300.0, -59.9962, 0.78146}}};
  for (const Line& line : lines) row.near(ramp(line.rate, line.top_C).log_theta, line.log_theta, 0.001);
  row.in("1");
  for (const Line& line : lines) row.within_percent(density(ramp(line.rate, line.top_C)), line.density, 0.1);
}

TEST(zirconia, V10) {
  Evidence row("closed form: 1 - (green / sintered)^(1/3)");
  row.within_percent(linear_shrinkage(0.45, 0.995), 0.2324, 0.1);
  row.within_percent(linear_shrinkage(0.50, 0.995), 0.2050, 0.1);
  row.within_percent(linear_shrinkage(0.52, 0.995), 0.1945, 0.1);
}

double grain_um(double temperature_C, double time_s) {
  return after({}, {0.0, time_s}, {temperature_C, temperature_C}).grain_um;
}

TEST(zirconia, V11) {
  Evidence row("closed form: G^4 = G0^4 + K0 exp(-E / RT) t", "um");
  row.within_percent(grain_um(1500.0, 7200.0), 0.7634, 0.1);
}

// A firing with ramps, a hold, cooling and a second heating, its segments cut in `cuts` parts.
ZirconiaState cut(int cuts) {
  const std::vector<double> corners_s{0.0, 7200.0, 12600.0, 14400.0, 18000.0, 21600.0};
  const std::vector<double> corners_C{25.0, 1100.0, 1290.0, 1290.0, 400.0, 1180.0};
  std::vector<double> times_s{corners_s[0]}, temperatures_C{corners_C[0]};
  for (std::size_t i = 1; i < corners_s.size(); ++i) {
    for (int k = 1; k <= cuts; ++k) {
      const double share = static_cast<double>(k) / cuts;
      times_s.push_back(corners_s[i - 1] + share * (corners_s[i] - corners_s[i - 1]));
      temperatures_C.push_back(corners_C[i - 1] + share * (corners_C[i] - corners_C[i - 1]));
    }
  }
  return after({}, times_s, temperatures_C);
}

TEST(zirconia, V13) {
  Evidence row("closed form: the answer does not depend on the steps");
  const double whole = density(cut(1));
  for (const int cuts : {2, 4, 8, 160}) row.near(density(cut(cuts)) - whole, 0.0, 1e-5);
}

TEST(zirconia, GrainsOverTemperature) {
  Evidence row("computed-here: the same law solved by a separate program", "um");
  const std::array<std::array<double, 2>, 5> lines{{{1350.0, 0.335}, {1450.0, 0.585}, {1550.0, 0.983}, {1600.0, 1.25}, {1650.0, 1.57}}};
  for (const auto& [temperature_C, expected] : lines) row.within_percent(grain_um(temperature_C, 7200.0), expected, 0.5);
  row.near(grain_um(1450.0, 900.0), 0.356, 0.001);
}

TEST(zirconia, GrainConstant) {
  Evidence row("nogueira-luz-2021, 2 h at 1530 C", "um", "calibration");
  row.near(grain_um(1530.0, 7200.0), 0.89, 0.0005);
}

// Published 0.53 um by microwaves, whose true temperature is uncertain: good to the 35 % that the law claims, no better.
TEST(zirconia, GrainsAfterMicrowaves) {
  Evidence row("nogueira-luz-2021, 15 min at 1450 C by microwaves", "um", "validation");
  row.within_percent(grain_um(1450.0, 900.0), 0.53, 35.0);
}

struct Measured {
  double temperature_C, slow, fast;  // relative density at 2 and 20 K/min; 0: not measured
};
constexpr std::array<Measured, 24> measured{{{1060, 0.4541, 0},      {1080, 0.4627, 0},      {1090, 0.4678, 0.4527}, {1100, 0.4740, 0.4573},
                                             {1110, 0.4809, 0.4612}, {1120, 0.4893, 0.4660}, {1130, 0.4988, 0.4715}, {1140, 0.5099, 0.4768},
                                             {1150, 0.5232, 0.4836}, {1160, 0.5383, 0.4909}, {1170, 0.5571, 0.4999}, {1180, 0.5790, 0.5092},
                                             {1190, 0.6050, 0.5199}, {1200, 0.6355, 0.5322}, {1210, 0.6699, 0.5458}, {1220, 0.7079, 0.5611},
                                             {1230, 0.7481, 0.5785}, {1240, 0.7866, 0.5974}, {1250, 0.8241, 0.6181}, {1260, 0.8580, 0.6439},
                                             {1270, 0.8879, 0.6719}, {1280, 0.9142, 0.7039}, {1290, 0.9351, 0.7472}, {1300, 0.9509, 0}}};

TEST(zirconia, CurvesOfTheFit) {
  Evidence row("mazaheri-2009, densities at 2 and 20 K/min, digitised by a public repository", "1", "calibration");
  double sum = 0.0, worst = 0.0;
  int points = 0;
  for (const Measured& line : measured) {
    for (const auto& [rate, expected] : {std::pair{2.0, line.slow}, std::pair{20.0, line.fast}}) {
      if (expected == 0.0) continue;
      const double off = density(ramp(rate, line.temperature_C)) - expected;
      sum += off * off;
      worst = std::max(worst, std::abs(off));
      ++points;
    }
  }
  row.near(std::sqrt(sum / points), 0.0047, 0.0006);
  row.between(worst, 0.0, density_error(CurveStanding::measured));
}

// The energy published with the curves does not bring them together: the finding is kept, not the number.
TEST(zirconia, PublishedEnergyDoesNotCollapseTheCurves) {
  Evidence row("computed-here: gap in ln Theta at equal density, with 485 kJ/mol and with the fit's", "ln s/K");
  const auto gap = [](double energy) {
    // 0.6355 at 1200 C and 2 K/min; the faster curve comes to it between 1250 and 1260 C.
    const double fast_C = 1250.0 + 10.0 * (0.6355 - 0.6181) / (0.6439 - 0.6181);
    return ramp_log_theta(energy, 20.0 / 60.0, fast_C + zero_celsius_K) - ramp_log_theta(energy, 2.0 / 60.0, 1200.0 + zero_celsius_K);
  };
  row.between(std::abs(gap(485.0)), 0.5, 2.0);
  row.between(std::abs(gap(746.0)), 0.0, 0.1);
}

TEST(zirconia, SmallFurnace) {
  Evidence row("computed-here: a furnace of 1200 C, 20 and 2 K/min");
  row.near(density(ramp(20.0, 1200.0)), 0.52, 0.006);
  row.near(density(ramp(2.0, 1200.0)), 0.64, 0.006);
}

}  // namespace
}  // namespace heatwork::reference
