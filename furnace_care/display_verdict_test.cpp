#include "furnace_care/display_verdict.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "furnace_care/furnace_for_tests.h"

namespace heatwork::furnace_care {
namespace {

CheckLevel level(double error_K, double standard_uncertainty_K, double limit_K) {
  return judge_display({{960, error_K, standard_uncertainty_K}}, limit_K, trade::CheckOf::thermocouple).level;
}

TEST(DisplayVerdict, GoesByTheWholeRange) {
  EXPECT_EQ(level(1, 2, 5), CheckLevel::good) << "from -3 to 5 K: its end is still allowed";
  EXPECT_EQ(level(-3.25, 2.475, 5), CheckLevel::cannot_tell) << "from -8.2 to 1.7 K";
  EXPECT_EQ(level(9, 2, 5), CheckLevel::cannot_tell) << "from 5 K on";
  EXPECT_EQ(level(9.1, 2, 5), CheckLevel::not_good);
  EXPECT_EQ(level(-9.1, 2, 5), CheckLevel::not_good) << "which way makes no difference";
  EXPECT_EQ(level(21, 9, 5), CheckLevel::not_good) << "so far off it is not fired with, however unsure";
  EXPECT_THROW((void)judge_display({}, 5, trade::CheckOf::thermocouple), std::logic_error);
}

TEST(DisplayVerdict, OneTemperatureBeyondIsEnoughAndOneUnsureKeepsItOpen) {
  const auto of = [](std::vector<DisplayError> errors) { return judge_display(errors, 5, trade::CheckOf::temperature); };
  EXPECT_EQ(of({{800, 1, 1}, {950, 8, 1}}).level, CheckLevel::not_good);
  EXPECT_EQ(of({{800, 1, 1}, {950, 8, 1}}).worst, 1U);
  EXPECT_EQ(of({{800, 1, 1}, {950, 4, 1}}).level, CheckLevel::cannot_tell);
  EXPECT_EQ(of({{800, 1, 1}, {950, 2, 1}}).level, CheckLevel::good);
}

TEST(DisplayVerdict, ACorrectionIsAdvisedWhereTheErrorIsSurelyOne) {
  const auto correct = [](double error_K, double u_K) {
    return judge_display({{960, error_K, u_K}}, 5, trade::CheckOf::temperature).correct;
  };
  EXPECT_TRUE(correct(7, 3));
  EXPECT_FALSE(correct(7, 4)) << "perhaps none at all";
  EXPECT_FALSE(correct(4, 0.5)) << "small enough to leave";
}

}  // namespace
}  // namespace heatwork::furnace_care
