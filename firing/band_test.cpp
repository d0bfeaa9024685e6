#include "firing/band.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace heatwork::firing {
namespace {

/// An outcome whose number is its energy residual: enough for a band.
Outcome outcome(double number) {
  Outcome made;
  made.firing.energy_residual_share = number;
  return made;
}

Varied varied(std::vector<double> ends, bool coarse = false, const std::string& aspect = "heat") {
  Varied made;
  made.input.aspects = {aspect};
  made.coarse = coarse;
  for (const double end : ends) made.ends.push_back(outcome(end));
  return made;
}

double number(const Outcome& outcome, const std::vector<FiringResult>&) {
  return outcome.firing.energy_residual_share;
}

TEST(Band, IsTheRootOfTheSumOfSquaresOfOneSidedChanges) {
  Rehearsal made;
  made.varied = {varied({10 - 3, 10 + 1}), varied({10 - 4, 10 + 2})};
  const Band band = band_of(made, "heat", 10, number);
  EXPECT_DOUBLE_EQ(*band.low, 10 - 5);
  EXPECT_DOUBLE_EQ(*band.high, 10 + std::sqrt(5));
}

TEST(Band, NamesTheInputThatMovesTheNumberMost) {
  Rehearsal made;
  made.varied = {varied({9, 11}), varied({10, 13}), varied({8, 10})};
  made.varied[0].input.name = "first";
  made.varied[1].input.name = "second";
  EXPECT_EQ(band_of(made, "heat", 10, number).widest, "second");
  made.varied = {varied({10, 10})};
  EXPECT_EQ(band_of(made, "heat", 10, number).widest, "");
}

TEST(Band, TwoEndsOnOneSideCountOnceWithTheLarger) {
  Rehearsal made;
  made.varied = {varied({12, 15})};
  const Band band = band_of(made, "heat", 10, number);
  EXPECT_DOUBLE_EQ(*band.low, 10);
  EXPECT_DOUBLE_EQ(*band.high, 15);
}

TEST(Band, CoarseVariantsAreHeldAgainstTheCoarseRun) {
  Rehearsal made;
  made.coarse = outcome(10.5);
  made.varied = {varied({10.5 - 2, 10.5 + 2}, true)};
  const Band band = band_of(made, "heat", 10, number);
  EXPECT_DOUBLE_EQ(*band.low, 8);
  EXPECT_DOUBLE_EQ(*band.high, 12);
}

TEST(Band, ThereIsNoneWhereNothingDecidesTheAspect) {
  Rehearsal made;
  made.varied = {varied({1, 2}, false, "water")};
  EXPECT_FALSE(band_of(made, "heat", 10, number).low);
  EXPECT_FALSE(band_of(made, "heat", 10, number).high);
  made.varied = {varied({}, false, "heat")};
  EXPECT_DOUBLE_EQ(*band_of(made, "heat", 10, number).low, 10) << "an input that changes nothing leaves a band of no width";
}

TEST(Band, AVariantWithoutTheNumberIsLeftOut) {
  Rehearsal made;
  made.varied = {varied({std::numeric_limits<double>::quiet_NaN(), 13})};
  EXPECT_DOUBLE_EQ(*band_of(made, "heat", 10, number).low, 10);
  EXPECT_DOUBLE_EQ(*band_of(made, "heat", 10, number).high, 13);
}

}  // namespace
}  // namespace heatwork::firing
