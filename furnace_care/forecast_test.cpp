#include "furnace_care/forecast.h"

#include <gtest/gtest.h>

namespace heatwork::furnace_care {
namespace {

const std::vector<double> days = {0, 30, 60, 90};

TEST(ForecastOfLimit, GoesToALimitAboveAsToOneBelow) {
  const auto up = forecast_of_limit(days, {10.1, 10.9, 12.1, 12.9}, 15.0, true);
  const auto down = forecast_of_limit(days, {-10.1, -10.9, -12.1, -12.9}, -15.0, false);
  ASSERT_TRUE(up && down);
  EXPECT_NEAR(up->days, 63, 3);  // 2.1 K left of a line that gains 1 K in 31 days
  EXPECT_DOUBLE_EQ(up->days, down->days);
  EXPECT_DOUBLE_EQ(up->earliest_days, down->earliest_days);
  EXPECT_LT(up->earliest_days, up->days);
  EXPECT_GT(up->latest_days.value(), up->days);
}

TEST(ForecastOfLimit, NothingWhereTheTrendIsShortUnsureAwayOrPast) {
  EXPECT_FALSE(forecast_of_limit({0, 30, 60}, {10, 11, 12}, 15.0, true));
  EXPECT_FALSE(forecast_of_limit({0, 5, 10, 15}, {10, 11, 12, 13.1}, 15.0, true));
  EXPECT_FALSE(forecast_of_limit(days, {10, 13, 9, 12}, 15.0, true));
  EXPECT_FALSE(forecast_of_limit(days, {13, 12, 11, 10.1}, 15.0, true));
  EXPECT_FALSE(forecast_of_limit(days, {10.1, 10.9, 12.1, 12.9}, 11.0, true));
  EXPECT_FALSE(forecast_of_limit(days, {10.001, 10.002, 10.003, 10.0041}, 15.0, true)) << "beyond two years";
}

}  // namespace
}  // namespace heatwork::furnace_care
