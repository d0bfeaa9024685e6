#include "metrology/melting_threshold.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace heatwork::metrology {
namespace {

const MeltPrior usual{959.6, 959.6, 12, std::nullopt, 0.02};

TEST(MeltingThreshold, TheFirstLevelIsThePriorsMedian) {
  const MeltEstimate found = estimate_melt_threshold(usual, {});
  EXPECT_EQ(found.advice, MeltAdvice::test_next);
  EXPECT_EQ(found.next_display_C, 960.0);
  EXPECT_NEAR(found.sd_K, 12, 1e-3);
}

TEST(MeltingThreshold, IsTheSameFurnaceMirrored) {
  const std::vector<MeltTrial> up = {{960, true}, {951, false}}, down = {{960, false}, {969, true}};
  const MeltPrior at_960{960, 960, 12, std::nullopt, 0.02};
  EXPECT_NEAR(estimate_melt_threshold(at_960, up).threshold_C - 960, 960 - estimate_melt_threshold(at_960, down).threshold_C, 1e-9);
}

TEST(MeltingThreshold, ALevelFarAwayTeachesOnlyThatALapseIsPossible) {
  const std::vector<MeltTrial> far = {{1200, true}};
  EXPECT_NEAR(estimate_melt_threshold(usual, far).threshold_C, 959.6, 1e-6);
}

TEST(MeltingThreshold, ContradictionIsToldAndRepeated) {
  const std::vector<MeltTrial> wrong = {{960, true}, {951, true}, {965, false}, {966, false}};
  const MeltEstimate found = estimate_melt_threshold(usual, wrong);
  EXPECT_TRUE(found.contradictory);
  EXPECT_GT(found.poor_spread_share, 0.5);
  EXPECT_EQ(found.advice, MeltAdvice::repeat);
  EXPECT_EQ(found.next_display_C, 966.0);
  EXPECT_FALSE(estimate_melt_threshold(usual, std::vector<MeltTrial>{{960, true}, {951, false}}).contradictory);
}

TEST(MeltingThreshold, AdviceFollowsTheOffset) {
  const auto advised = [](double threshold_C) {
    std::vector<MeltTrial> trials;
    MeltEstimate now = estimate_melt_threshold(usual, trials);
    while (now.next_display_C) {
      trials.push_back({*now.next_display_C, *now.next_display_C > threshold_C});
      now = estimate_melt_threshold(usual, trials);
    }
    EXPECT_LE(trials.size(), 5U);
    return now.advice;
  };
  EXPECT_EQ(advised(960.3), MeltAdvice::leave);
  EXPECT_EQ(advised(972.7), MeltAdvice::correct);
  EXPECT_EQ(advised(945.4), MeltAdvice::correct);
  EXPECT_EQ(advised(987.3), MeltAdvice::stop_use);
}

TEST(MeltingThreshold, RefusesWhatCannotBe) {
  const std::vector<MeltTrial> none;
  EXPECT_THROW(estimate_melt_threshold({959.6, 959.6, 0, std::nullopt, 0.02}, none), std::domain_error);
  EXPECT_THROW(estimate_melt_threshold({959.6, 959.6, 12, 0.0, 0.02}, none), std::domain_error);
  EXPECT_THROW(estimate_melt_threshold({959.6, 959.6, 12, 2.0, 0.6}, none), std::domain_error);
  EXPECT_THROW(estimate_melt_threshold({959.6, std::nan(""), 12, 2.0, 0.02}, none), std::domain_error);
  EXPECT_THROW(estimate_melt_threshold(usual, std::vector<MeltTrial>{{20, true}}), std::domain_error);
  const std::vector<MeltTrial> impossible = {{900, true}, {1000, false}};
  EXPECT_THROW(estimate_melt_threshold({959.6, 959.6, 12, 0.1, 0.0}, impossible), std::domain_error);
}

TEST(MeltingThreshold, AnswersInUnderTenMilliseconds) {
  const std::vector<MeltTrial> trials = {{960, true}, {951, false}, {956, true}};
  double best_s = 1e9;
  for (int i = 0; i < 5; ++i) {
    const auto start = std::chrono::steady_clock::now();
    (void)estimate_melt_threshold(usual, trials);
    best_s = std::min(best_s, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  RecordProperty("figure", "a melt-test answer");
  RecordProperty("figure_value", std::to_string(1000 * best_s));
  RecordProperty("figure_unit", "ms");
#if defined(NDEBUG) && !defined(__SANITIZE_ADDRESS__)
  EXPECT_LT(best_s, 0.010);
#endif
}

}  // namespace
}  // namespace heatwork::metrology
