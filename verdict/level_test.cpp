#include "verdict/level.h"

#include <gtest/gtest.h>

namespace heatwork::verdict {
namespace {

trade::Limit limit(double first, std::optional<double> second) {
  trade::Limit made;
  made.first = first;
  made.second = second;
  return made;
}

Level level(Number number, double first, std::optional<double> second, Side side = Side::above) {
  return assess(number, limit(first, second), side).level;
}

TEST(Level, OfANumberAlone) {
  EXPECT_EQ(level({0.9}, 1, 5), Level::sound);
  EXPECT_EQ(level({1.0}, 1, 5), Level::sound);
  EXPECT_EQ(level({1.1}, 1, 5), Level::borderline);
  EXPECT_EQ(level({5.0}, 1, 5), Level::borderline);
  EXPECT_EQ(level({5.1}, 1, 5), Level::fault_expected);
  EXPECT_EQ(level({1e9}, 1, std::nullopt), Level::borderline);
}

TEST(Level, OfALowerLimitAndOfBothSides) {
  EXPECT_EQ(level({0.99}, 0.98, 0.90, Side::below), Level::sound);
  EXPECT_EQ(level({0.95}, 0.98, 0.90, Side::below), Level::borderline);
  EXPECT_EQ(level({0.89}, 0.98, 0.90, Side::below), Level::fault_expected);
  EXPECT_EQ(level({-9.9}, 10, 20, Side::either), Level::sound);
  EXPECT_EQ(level({-13.4}, 10, 20, Side::either), Level::borderline);
  EXPECT_EQ(level({20.1}, 10, 20, Side::either), Level::fault_expected);
}

TEST(Level, OfABand) {
  EXPECT_EQ(level({5, 2, 9}, 10, 20), Level::sound);
  EXPECT_EQ(level({25, 12, 40}, 10, 20), Level::fault_expected);
  EXPECT_EQ(level({15, 12, 18}, 10, 20), Level::borderline);
  EXPECT_EQ(level({9, 2, 15}, 10, 20), Level::borderline);
  EXPECT_EQ(level({9, 2, 25}, 10, 20), Level::cannot_tell);
  EXPECT_EQ(level({25, 8, 40}, 10, 20), Level::cannot_tell);
  EXPECT_EQ(level({19, 11, 26}, 10, 20), Level::borderline);
  // A band across zero is inside the first limit somewhere.
  EXPECT_EQ(level({2, -22, 24}, 10, 20, Side::either), Level::cannot_tell);
  EXPECT_EQ(level({-25, -38, -12}, 10, 20, Side::either), Level::fault_expected);
}

TEST(Level, OfALimitTheMakersFiringBreaksToo) {
  const Assessment both = assess({1.4, {}, {}, 1.2}, limit(1, 5), Side::above);
  EXPECT_EQ(both.level, Level::sound);
  EXPECT_TRUE(both.maker_breaks_too);
  const Assessment far = assess({7, {}, {}, 1.2}, limit(1, 5), Side::above);
  EXPECT_EQ(far.level, Level::fault_expected) << "the second limit is broken here alone";
  EXPECT_FALSE(far.maker_breaks_too);
  const Assessment both_far = assess({7, {}, {}, 6}, limit(1, 5), Side::above);
  EXPECT_EQ(both_far.level, Level::sound);
  EXPECT_TRUE(both_far.maker_breaks_too);
  const Assessment here_alone = assess({1.4, {}, {}, 0.3}, limit(1, 5), Side::above);
  EXPECT_EQ(here_alone.level, Level::borderline);
}

TEST(Level, TheMakersOwnBandCountsAtTheSameEnd) {
  // One cause moves both firings: where it takes ours beyond the limit, it takes the maker's as well.
  EXPECT_EQ(level({0.9, 0.4, 2, 0.8, 0.4, 1.8}, 1, 5), Level::sound);
  EXPECT_EQ(level({0.9, 0.4, 2, 0.5, 0.4, 0.8}, 1, 5), Level::borderline);
  EXPECT_EQ(level({0.9, 0.4, 7, 0.8, 0.4, 3}, 1, 5), Level::cannot_tell) << "the second limit is broken here alone";
  EXPECT_EQ(level({0.9, 0.4, 7, 0.8, 0.4, 6}, 1, 5), Level::sound);
  EXPECT_TRUE(assess({0.9, 0.4, 2, 0.8, 0.4, 1.8}, limit(1, 5), Side::above).maker_breaks_at_end);
  EXPECT_FALSE(assess({0.9, 0.4, 2, 0.8, 0.4, 0.9}, limit(1, 5), Side::above).maker_breaks_at_end);
}

TEST(Level, SaysWhereOnlyTheBandKeepsItFromSound) {
  EXPECT_TRUE(assess({9, 2, 15}, limit(10, 20), Side::above).only_the_band);
  EXPECT_TRUE(assess({9, 2, 25}, limit(10, 20), Side::above).only_the_band);
  EXPECT_FALSE(assess({11, 2, 15}, limit(10, 20), Side::above).only_the_band);
  EXPECT_FALSE(assess({5, 2, 9}, limit(10, 20), Side::above).only_the_band);
}

TEST(Level, NamesTheLimitBroken) {
  EXPECT_EQ(assess({0.2}, limit(1, 5), Side::above).limit, 1);
  EXPECT_EQ(assess({2}, limit(1, 5), Side::above).limit, 1);
  EXPECT_EQ(assess({6}, limit(1, 5), Side::above).limit, 5);
}

}  // namespace
}  // namespace heatwork::verdict
