#include "report/axis.h"

#include <gtest/gtest.h>

#include <vector>

namespace heatwork::report {
namespace {

TEST(Axis, StraightAndLogarithmic) {
  const Axis straight = {0, 100, 200, 100};
  EXPECT_DOUBLE_EQ(straight.at(0), 200);
  EXPECT_DOUBLE_EQ(straight.at(25), 175);
  EXPECT_DOUBLE_EQ(straight.at(180), 100) << "beyond the end at the end";
  EXPECT_DOUBLE_EQ(straight.unbounded().at(150), 50);
  const Axis decades = {10, 1000, 300, 100, true};
  EXPECT_NEAR(decades.at(100), 200, 1e-9);
  EXPECT_NEAR(decades.at(0), 300, 1e-9) << "nothing lies under the lowest decade";
}

TEST(Axis, TicksAreRound) {
  EXPECT_EQ(round_ticks(0, 960, 5), (std::vector<double>{0, 200, 400, 600, 800}));
  EXPECT_EQ(decade_ticks(10, 1200), (std::vector<double>{10, 100, 1000}));
  EXPECT_EQ(minute_ticks(300, 10), (std::vector<double>{0, 60, 120, 180, 240, 300}));
  EXPECT_LE(minute_ticks(12 * 3600.0, 16).size(), 17U);
  EXPECT_EQ(round_up(137), 150);
  EXPECT_EQ(round_up(0.031), 0.04);
  EXPECT_EQ(round_up(0), 1);
}

}  // namespace
}  // namespace heatwork::report
