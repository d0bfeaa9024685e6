#include "metrology/drift_verdict.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

namespace heatwork::metrology {
namespace {

/// Some scatter that repeats, of about 1.2 K.
double scatter(int i) {
  return 0.4 * ((i * 37 % 11) - 5);
}

std::vector<DriftPoint> months(int count, double (*offset)(int)) {
  std::vector<DriftPoint> out;
  for (int i = 0; i < count; ++i) out.push_back({30.0 * i, offset(i) + scatter(i), 1.5});
  return out;
}

TEST(DriftVerdict, TellsADriftFromAStepAndFromNothing) {
  EXPECT_EQ(judge_drift(months(30, [](int) { return 2.0; })).change, DriftChange::none);
  const DriftVerdict drift = judge_drift(months(30, [](int i) { return 0.4 * i; }));
  EXPECT_EQ(drift.change, DriftChange::drift);
  EXPECT_LT(*drift.begins, 8U);
  const DriftVerdict step = judge_drift(months(30, [](int i) { return i < 14 ? 1.0 : -9.0; }));
  EXPECT_EQ(step.change, DriftChange::step);
  EXPECT_EQ(*step.begins, 14U);
  EXPECT_NEAR(step.change_K, -10, 1.5);
  EXPECT_NEAR(step.chance_none + step.chance_drift + step.chance_step, 1, 1e-12);
}

TEST(DriftVerdict, FewChecksAndAShortStepCannotTell) {
  EXPECT_EQ(judge_drift(months(5, [](int i) { return i < 3 ? 0.0 : 12.0; })).change, DriftChange::cannot_tell);
  EXPECT_EQ(judge_drift({}).change, DriftChange::cannot_tell);
  // Only the last check is elsewhere: a slip of the hand looks the same.
  EXPECT_NE(judge_drift(months(20, [](int i) { return i < 19 ? 0.0 : 9.0; })).change, DriftChange::step);
}

TEST(DriftVerdict, ACheckThatItsNeighboursContradictIsSetAside) {
  const DriftVerdict found = judge_drift(months(24, [](int i) { return i == 11 ? 25.0 : 0.0; }));
  ASSERT_EQ(found.set_aside.size(), 1U);
  EXPECT_EQ(found.set_aside.front(), 11U);
  EXPECT_EQ(found.change, DriftChange::none);
}

TEST(DriftVerdict, Refuses) {
  const std::vector<DriftPoint> back = {{1, 1, 1}, {0, 2, 1}}, sure = {{0, 1, 0}, {1, 2, 1}};
  EXPECT_THROW(judge_drift(back), std::domain_error);
  EXPECT_THROW(judge_drift(sure), std::domain_error);
}

TEST(DriftVerdict, ChecksOfOneMomentAreWeighedAsTheyStand) {
  std::vector<DriftPoint> apart, same;
  for (int i = 0; i < 24; ++i) {
    apart.push_back({30.0 * i, (i < 12 ? 0 : 9) + scatter(i), 1.5});
    same.push_back(apart.back());
  }
  for (const std::size_t at : {std::size_t{1}, std::size_t{12}, std::size_t{22}, std::size_t{23}}) same[at].day = same[at - 1].day;
  EXPECT_EQ(judge_drift(same).change, judge_drift(apart).change);
  EXPECT_NEAR(judge_drift(same).change_K, judge_drift(apart).change_K, 0.5);
  for (DriftPoint& point : same) point.day = 7;
  EXPECT_EQ(judge_drift(same).change, DriftChange::cannot_tell) << "no time went by";
}

TEST(DriftVerdict, TenYearsOfDailyChecksAreWeighed) {
  std::vector<DriftPoint> points;
  for (int i = 0; i < 3650; ++i) points.push_back({1.0 * i, scatter(i), 1.5});
  EXPECT_EQ(judge_drift(points).change, DriftChange::none);
}

}  // namespace
}  // namespace heatwork::metrology
