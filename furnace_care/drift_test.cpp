#include "furnace_care/drift.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace heatwork::furnace_care {
namespace {

/// Some scatter that repeats, of about 1 K.
double scatter(int i) {
  return 0.35 * ((i * 37 % 11) - 5);
}

std::vector<ChartedCheck> checks_of(int count, double every_days, double (*offset)(int)) {
  std::vector<ChartedCheck> out;
  for (int i = 0; i < count; ++i) {
    ChartedCheck check;
    check.name = "check-" + std::to_string(i);
    check.day = every_days * i;
    check.error_K = offset(i) + scatter(i);
    check.uncertainty_K = 1.6;
    out.push_back(check);
  }
  return out;
}

TEST(DriftChart, LimitsGoByHowOftenIsChecked) {
  const auto still = [](int) { return 2.0; };
  const DriftChart monthly = chart_checks(checks_of(20, 30, still), 10), weekly = chart_checks(checks_of(20, 7, still), 10),
                   daily = chart_checks(checks_of(20, 0.5, still), 10);
  EXPECT_EQ(monthly.how_often, HowOften::monthly);
  EXPECT_NEAR(monthly.average_run, 58.80, 0.3);
  EXPECT_NEAR(monthly.average_run_to_two, 2.68, 0.02);
  EXPECT_EQ(weekly.how_often, HowOften::weekly);
  EXPECT_NEAR(weekly.average_run, 168, 1);
  EXPECT_EQ(daily.how_often, HowOften::each_firing);
  EXPECT_NEAR(daily.average_run, 465, 2);
  // A target that is only the mean of three checks cries sooner.
  EXPECT_LT(monthly.average_run_as_targeted, 0.8 * monthly.average_run);
  EXPECT_EQ(monthly.outcome, ChartOutcome::good);
}

TEST(DriftChart, BeginsAnewAfterAdjustmentRepairAndAChangedCorrection) {
  auto checks = checks_of(24, 30, [](int i) { return i < 10 ? 1.0 * i : 0.0; });
  checks[10].as_left = true;
  const DriftChart adjusted = chart_checks(checks, 10);
  ASSERT_EQ(adjusted.runs.size(), 2U);
  EXPECT_EQ(adjusted.runs[1].first, 10U);
  EXPECT_EQ(adjusted.runs[1].begins, RunBegins::adjusted);
  EXPECT_TRUE(adjusted.runs[1].head_start);
  EXPECT_EQ(adjusted.outcome, ChartOutcome::good);
  EXPECT_FALSE(adjusted.alarms.sums);
  EXPECT_NEAR(adjusted.average_run, 41, 15);  // a head start costs some
  EXPECT_LT(adjusted.average_run, 58);

  checks[10].as_left = false;
  checks[10].after_repair = "new muffle";
  EXPECT_EQ(chart_checks(checks, 10).runs[1].begins, RunBegins::repaired);
  checks[10].after_repair = "";
  checks[9].correction_keyed_K = 0;
  checks[9].keyed_after_K = 9;
  EXPECT_EQ(chart_checks(checks, 10).runs[1].begins, RunBegins::correction_changed);
  checks[9].keyed_after_K.reset();
  checks[10].correction_keyed_K = 9;
  EXPECT_EQ(chart_checks(checks, 10).runs[1].begins, RunBegins::correction_changed);
  checks[10].correction_keyed_K = 0;
  EXPECT_EQ(chart_checks(checks, 10).runs.size(), 1U);
}

TEST(DriftChart, TellsDriftStepAndWhatIsBeyondItsLimit) {
  const DriftChart drift = chart_checks(checks_of(24, 30, [](int i) { return 0.33 * i; }), 10);
  EXPECT_EQ(drift.reason, ChartReason::drift);
  ASSERT_TRUE(drift.forecast && drift.forecast->days_to_limit);
  EXPECT_NEAR(*drift.forecast->days_to_limit, 30 * (10 - 0.33 * 23) / 0.33, 150);
  const DriftChart step = chart_checks(checks_of(24, 30, [](int i) { return i < 12 ? 0.0 : -8.5; }), 10);
  EXPECT_EQ(step.reason, ChartReason::step);
  EXPECT_EQ(*step.verdict.begins, 12U);
  EXPECT_TRUE(step.alarms.sums);
  EXPECT_NEAR(step.forecast->slope_K_per_day, 0, 0.01) << "the step itself is no slope";
  EXPECT_EQ(chart_checks(checks_of(24, 30, [](int) { return 16.0; }), 10).reason, ChartReason::beyond_limit);
  const DriftChart one = chart_checks(checks_of(1, 30, [](int) { return 3.0; }), 10);
  EXPECT_EQ(one.outcome, ChartOutcome::cannot_tell);
  EXPECT_EQ(one.reason, ChartReason::too_few);
  EXPECT_FALSE(one.forecast);
  EXPECT_EQ(chart_checks(checks_of(1, 30, [](int) { return 19.0; }), 10).reason, ChartReason::beyond_limit);
}

TEST(DriftChart, Refuses) {
  EXPECT_THROW(chart_checks({}, 10), std::domain_error);
  auto checks = checks_of(3, 30, [](int) { return 0.0; });
  EXPECT_THROW(chart_checks(checks, 0), std::domain_error);
  checks[2].day = checks[1].day - 1;
  try {
    (void)chart_checks(checks, 10);
    FAIL();
  } catch (const std::domain_error& error) {
    EXPECT_STREQ(error.what(), "Check \"check-2\" stands before \"check-1\" though it came later; a chart needs them in order of time.");
  }
}

TEST(DriftChart, ChecksOfOneMomentAreChartedInTheOrderTheyStand) {
  const auto same = [](int count, int at) {
    auto checks = checks_of(count, 30, [](int i) { return i < 12 ? 0.0 : -8.5; });
    for (int i = at; i < count && i < at + 3; ++i) checks[static_cast<std::size_t>(i)].day = checks[static_cast<std::size_t>(at)].day;
    return checks;
  };
  for (const int at : {0, 11, 21}) {
    const DriftChart chart = chart_checks(same(24, at), 10);
    EXPECT_EQ(chart.reason, ChartReason::step) << at;
    ASSERT_EQ(chart.rows.size(), 24U);
    EXPECT_TRUE(chart.forecast && std::isfinite(chart.forecast->offset_K)) << at;
  }
  // All at one moment tell of no time at all.
  auto checks = checks_of(8, 0, [](int) { return 1.0; });
  const DriftChart chart = chart_checks(checks, 10);
  EXPECT_EQ(chart.reason, ChartReason::too_few);
  EXPECT_NEAR(chart.forecast->offset_K, 1, 1);
}

TEST(DriftChart, OneThatIsSetAsideTakesNoOtherOfItsMomentWithIt) {
  auto checks = checks_of(12, 30, [](int) { return 0.0; });
  checks[6].error_K = 40;
  checks[7].day = checks[6].day;
  const DriftChart chart = chart_checks(checks, 10);
  EXPECT_EQ(chart.verdict.set_aside, (std::vector<std::size_t>{6}));
  auto without = checks;
  without.erase(without.begin() + 6);
  EXPECT_NEAR(chart.forecast->offset_K, chart_checks(without, 10).forecast->offset_K, 1e-9);
}

TEST(DriftChart, TenYearsOfDailyChecksAreCharted) {
  const DriftChart chart = chart_checks(checks_of(3652, 1, [](int) { return 1.0; }), 10);
  EXPECT_EQ(chart.outcome, ChartOutcome::good);
  EXPECT_EQ(chart.how_often, HowOften::each_firing);
}

}  // namespace
}  // namespace heatwork::furnace_care
