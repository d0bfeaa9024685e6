#include "metrology/control_chart.h"

#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace heatwork::metrology {
namespace {

TEST(Shewhart, EachRuleAlarmsAlone) {
  const auto rule = [](const std::vector<double>& values) { return shewhart_chart(values, 0, 1).rule.value_or(0); };
  EXPECT_EQ(rule({0, 3.1}), 1);
  EXPECT_EQ(rule({0, 3.0}), 0);
  EXPECT_EQ(rule({2.1, -0.5, 2.1}), 2);
  EXPECT_EQ(rule({2.1, -0.5, -2.1}), 0);
  EXPECT_EQ(rule({1.1, 1.1, -0.2, 1.1, 1.1}), 3);
  EXPECT_EQ(rule({-.1, -.1, -.1, -.1, -.1, -.1, -.1, -.1}), 4);
  EXPECT_EQ(rule({-.1, -.1, -.1, -.1, 0, -.1, -.1, -.1, -.1}), 0);
  EXPECT_EQ(*shewhart_chart(std::vector<double>{0, 0, -4}, 0, 1).first_alarm, 3U);
}

TEST(Forecast, FollowsASteadyDrift) {
  std::vector<DriftPoint> points;
  for (int i = 0; i < 24; ++i) points.push_back({30.0 * i, 0.1 * i, 1.0});
  const DriftForecast found = forecast_drift(points, 10);
  EXPECT_NEAR(found.slope_K_per_day, 0.1 / 30, 0.0005);
  EXPECT_NEAR(*found.days_to_limit, (10 - 2.3) / (0.1 / 30), 400);
  EXPECT_LT(*found.earliest_days, *found.days_to_limit);
}

TEST(Forecast, AnOffsetBeyondItsLimitIsDueNow) {
  const std::vector<DriftPoint> points = {{0, 12, 1}, {30, 12, 1}, {60, 12.5, 1}};
  EXPECT_EQ(*forecast_drift(points, 10).days_to_limit, 0);
}

TEST(Forecast, Refuses) {
  const std::vector<DriftPoint> back = {{30, 1, 1}, {0, 1, 1}}, same = {{30, 1, 1}, {30, 1, 1}}, one = {{30, 1, 1}};
  EXPECT_THROW(forecast_drift(back, 10), std::domain_error);
  EXPECT_THROW(forecast_drift(one, 10), std::domain_error);
  EXPECT_NEAR(forecast_drift(same, 10).offset_K, 1, 0.1) << "two checks of one moment are two checks";
}

TEST(Charts, TenYearsOfDailyChecksAreQuick) {
  std::vector<double> values;
  std::vector<DriftPoint> points;
  for (int i = 0; i < 3650; ++i) {
    values.push_back((i * 37 % 11) * 0.3 - 1.5);
    points.push_back({1.0 * i, values.back(), 1.5});
  }
  const auto start = std::chrono::steady_clock::now();
  (void)cusum_chart(values, 0, 1.5, 0.5, 3);
  (void)ewma_chart(values, 0, 1.5, 0.2, 2.962);
  (void)shewhart_chart(values, 0, 1.5);
  (void)forecast_drift(points, 10);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  RecordProperty("figure", "ten years of daily checks charted");
  RecordProperty("figure_value", std::to_string(1000 * seconds));
  RecordProperty("figure_unit", "ms");
  EXPECT_LT(seconds, 0.050);
}

TEST(Charts, Refuse) {
  const std::array<double, 2> values = {1, 2};
  EXPECT_THROW(cusum_chart(values, 0, 0, 0.5, 3), std::domain_error);
  EXPECT_THROW(cusum_chart(values, 0, 1, -1, 3), std::domain_error);
  EXPECT_THROW(cusum_chart(values, 0, 1, 0.5, 3, 4), std::domain_error);
  EXPECT_THROW(ewma_chart(values, 0, 1, 0, 3), std::domain_error);
  EXPECT_THROW(average_run_length({ChartKind::cusum, 0}, 0), std::domain_error);
  EXPECT_THROW(average_run_length({ChartKind::shewhart, 15}, 0), std::domain_error);
}

TEST(Forecast, AnUncertaintyGrowsWithTheDaysSinceTheCheck) {
  EXPECT_DOUBLE_EQ(uncertainty_after_K(2, 0), 2);
  EXPECT_NEAR(uncertainty_after_K(2, 30.4375), std::sqrt(4.5 + 0.0025 / 3), 1e-12);
  // The walks of the filter behind a forecast, in many small steps from a known slope.
  double level = 4, cross = 0, slope = 0;
  constexpr int steps = 24'000;
  constexpr double month = 24.0 / steps;
  for (int i = 0; i < steps; ++i) {
    level += 2 * month * cross + month * month * slope + 0.5 * month;
    cross += month * slope;
    slope += 0.0025 * month;
  }
  EXPECT_NEAR(uncertainty_after_K(2, 24 * 30.4375), std::sqrt(level), 1e-3);
  EXPECT_THROW((void)uncertainty_after_K(-1, 1), std::domain_error);
  EXPECT_THROW((void)uncertainty_after_K(1, -1), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
