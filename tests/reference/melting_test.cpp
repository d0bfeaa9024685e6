// The melt test, its curve and its line against closed forms, published fits and values computed apart.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "evidence_row.h"
#include "metrology/display_offset.h"
#include "metrology/melt_curve.h"
#include "metrology/melt_wire.h"
#include "metrology/melting_threshold.h"
#include "metrology/silver.h"
#include "metrology/straight_line.h"

namespace heatwork {
namespace {

using namespace metrology;
using reference::Evidence;

TEST(Melting, metrology_P6) {
  const std::array<double, 11> t = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
  const std::array<double, 11> b = {-.171, -.169, -.166, -.159, -.164, -.165, -.156, -.157, -.159, -.161, -.160};
  const StraightLine line = fit_straight_line(t, b, 20);
  Evidence row("gum-2008 H.3", "C");
  row.near(line.intercept, -0.171204, 5e-7);
  row.near(line.intercept_u, 0.0029, 5e-5);
  row.near(line.slope, 0.00218270, 5e-9);
  row.near(line.slope_u, 0.00067, 5e-6);
  row.near(line.correlation, -0.930, 5e-4);
  row.near(line.residual_sd, 0.0035, 5e-5);
  const Predicted at_30 = line_at(line, 30);
  row.near(at_30.value, -0.149377, 5e-7);
  row.near(at_30.uncertainty, 0.0041386, 5e-8);
}

const std::vector<MeltCount>& beetles() {
  static const std::vector<MeltCount> counts = {{1.6907, 59, 6},  {1.7242, 60, 13}, {1.7552, 62, 18}, {1.7842, 56, 28},
                                                {1.8113, 63, 52}, {1.8369, 59, 53}, {1.8610, 62, 61}, {1.8839, 60, 60}};
  return counts;
}

TEST(Melting, metrology_P7) {
  const MeltCurve fit = fit_melt_curve(MeltLink::logit, beetles());
  Evidence row("dobson-2002, dose and response, logit");
  row.within_percent(fit.intercept, -60.717455, 1e-3);
  row.within_percent(fit.slope, 34.270326, 1e-3);
  row.within_percent(fit.deviance, 11.232231, 1e-3);
  row.within_percent(fit.intercept_se, 5.18071, 1e-3);
  row.within_percent(fit.slope_se, 2.91214, 1e-3);
}

TEST(Melting, metrology_P8) {
  const MeltCurve fit = fit_melt_curve(MeltLink::probit, beetles());
  Evidence row("dobson-2002, dose and response, probit, computed apart");
  row.within_percent(fit.intercept, -34.935259, 1e-3);
  row.within_percent(fit.slope, 19.727934, 1e-3);
  row.within_percent(fit.deviance, 10.119758, 1e-3);
  row.within_percent(fit.midpoint_C, 1.770852, 1e-3);
}

TEST(Melting, metrology_P9) {
  // Turning points of the published record; between them the dose moves by one.
  const std::array<int, 27> turns = {4,  7,  6,  13, 12, 19, 18, 21, 20, 19, 23, 22, 21, 23,
                                     22, 19, 20, 23, 22, 24, 23, 22, 23, 22, 25, 24, 22};
  std::vector<double> doses = {4};
  const auto go = [&](int to) {
    while (doses.back() != to) doses.push_back(doses.back() + (to > doses.back() ? 1 : -1));
  };
  for (const int turn : turns) go(turn);
  for (const int turn : {23, 24, 23, 24, 23, 22}) go(turn);
  ASSERT_EQ(doses.size(), 61U);
  std::array<bool, 61> answered{};
  for (std::size_t i = 0; i + 1 < doses.size(); ++i) answered[i] = doses[i + 1] < doses[i];
  const UpAndDown found = up_and_down(doses, answered, 1);
  Evidence row("dixon-mood-1948, a published record of 61 doses, computed apart");
  row.near(found.rarer, 21, 1e-4);
  row.near(found.lowest_level, 7, 1e-4);
  row.near(found.first_sum, 300, 1e-4);
  row.near(found.second_sum, 4632, 1e-4);
  row.near(found.mean_C, 20.7857, 1e-4);
  row.near(found.scatter, 16.4898, 1e-4);
  row.near(found.spread_K, 26.7604, 1e-4);
}

TEST(Melting, metrology_P10) {
  const std::array<MeltTrial, 1> melted = {{{960, true}}};
  const MeltEstimate found = estimate_melt_threshold({960, 960, 12, 2.0, 0.0}, melted);
  Evidence row("closed form of one test with a normal prior", "K");
  row.near(960 - found.threshold_C, 9.4443, 1e-3);
  row.near(found.sd_K, 7.4030, 1e-3);
}

TEST(Melting, metrology_P11) {
  struct Case {
    std::vector<MeltTrial> trials;
    double mean, sd, median, low, high, offset;
  };
  const std::vector<MeltTrial> four = {{960, true}, {951, false}, {956, true}, {953, false}};
  const auto first = [&](int count) { return std::vector<MeltTrial>(four.begin(), four.begin() + count); };
  const std::vector<Case> cases = {
      {first(1), 950.663, 7.664, 951.92, 933.01, 961.51, -9.137},
      {first(2), 955.948, 3.943, 955.89, 949.40, 962.60, -3.852},
      {first(3), 953.549, 2.771, 953.67, 948.44, 958.24, -6.251},
      {first(4), 954.888, 1.973, 954.85, 951.21, 958.73, -4.912},
      {{{960, false}, {968, false}, {977, true}, {973, false}}, 974.537, 2.495, 974.49, 969.97, 979.24, 14.737},
      {{{960, true}, {955, false}, {957, true}, {956, false}, {954, true}}, 955.417, 1.674, 955.46, 952.61, 958.26, -4.383}};
  Evidence row("grid posteriors computed apart, spread 2 K, lapse 0.02, prior sd 12 K", "C");
  for (const Case& each : cases) {
    const MeltEstimate found = estimate_melt_threshold({959.8, 959.8, 12, 2.0, 0.02}, each.trials);
    row.near(found.threshold_C, each.mean, 0.02);
    row.near(found.sd_K, each.sd, 0.02);
    row.near(found.median_C, each.median, 0.02);
    row.near(found.low_C, each.low, 0.02);
    row.near(found.high_C, each.high, 0.02);
    row.near(found.offset_K, each.offset, 0.02);
  }
}

TEST(Melting, metrology_P12) {
  const std::array<MeltCount, 2> separated = {{{960, 1, 1}, {951, 1, 0}}};
  for (const MeltLink link : {MeltLink::logit, MeltLink::probit}) {
    try {
      fit_melt_curve(link, separated);
      ADD_FAILURE() << "a separated record was fitted";
    } catch (const std::domain_error& refused) {
      EXPECT_NE(std::string(refused.what()).find("No finite estimate exists"), std::string::npos);
    }
  }
}

TEST(Melting, metrology_P27) {
  Evidence row("cryoscopy of silver with oxygen, computed apart", "C");
  row.near(silver_melting_C(0.2095, 0.019884), 951.61, 0.02);
  row.near(silver_melting_C(0.2095 * 50 / 1013.25, 0.019884), 959.51, 0.02);
  row.near(silver_melting_C(1, 0.019884), 939.65, 0.02);
  row.near(wire_melt_point(WireMetal::silver, WireGas::vacuum, 50, 100).temperature_C, 959.51, 0.02);
  row.near(wire_melt_point(WireMetal::silver, WireGas::air, 795.01, 100).temperature_C, 952.8, 0.05);
}

TEST(Melting, WiresFollowTheTableOfTheirKinetics) {
  Evidence row("lumped wire in hot gas, computed apart (order of magnitude)", "K");
  row.in("W/m2K");
  row.near(wire_film_W_per_m2K(0.25, 961.78), 331, 1);
  row.near(wire_film_W_per_m2K(1.0, 961.78), 115, 1);
  row.in("K");
  row.near(wire_lag_K(0.5, 60, 961.78), 2.0, 0.1);
  row.near(wire_superheat_K(0.25, 1, 60, 961.78), 3.5, 0.06);
  row.near(wire_superheat_K(0.5, 1, 60, 961.78), 12.3, 0.06);
  row.near(wire_superheat_K(1.0, 1, 300, 961.78), 8, 0.1);
}

TEST(Melting, TheBudgetOfASilverCheckIsThatOfItsTable) {
  const std::array<double, 6> vacuum = {0.6, 0.5, 0.29, 0.6, 1.7, 2.5};
  const std::array<double, 7> probe = {0.3, 0.1, 0.29, 0.6, 0.6, 1.7, 1.5};
  Evidence row("budget added apart (analysis)", "K");
  row.near(combined_uncertainty_K(vacuum), 3.2, 0.05);
  row.near(combined_uncertainty_K(probe), 2.5, 0.05);
  row.near(rectangular_uncertainty_K(2.404), 1.4, 0.05);
}

}  // namespace
}  // namespace heatwork
