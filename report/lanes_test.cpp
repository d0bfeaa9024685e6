#include "report/lanes.h"

#include <gtest/gtest.h>
// GoogleTest stands before rapidcheck, which looks for it.
#include <rapidcheck/gtest.h>

#include <vector>

namespace heatwork::report {
namespace {

int overlaps(const std::vector<LaneLabel>& labels) {
  int count = 0;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    for (std::size_t k = i + 1; k < labels.size(); ++k) {
      const LaneLabel &a = labels[i], &b = labels[k];
      if (a.lane == b.lane && a.left < b.left + b.width && b.left < a.left + a.width) ++count;
    }
  }
  return count;
}

TEST(Lanes, LabelsFarApartShareOneLane) {
  std::vector<LaneLabel> labels = {{"a", 100, 0, 0, 50}, {"b", 300, 0, 0, 50}, {"c", 700, 0, 0, 50}};
  EXPECT_EQ(place_in_lanes(labels, {0, 900}), 1);
}

TEST(Lanes, ALabelAtTheEndRunsBack) {
  std::vector<LaneLabel> labels = {{"late", 895, 0, 0, 120}};
  EXPECT_EQ(place_in_lanes(labels, {0, 900}), 1);
  EXPECT_DOUBLE_EQ(labels[0].left, 895 - 4 - 120);
}

TEST(Lanes, TwoCloseOnesRunApart) {
  std::vector<LaneLabel> labels = {{"first", 400, 0, 0, 120}, {"second", 410, 0, 0, 120}};
  EXPECT_EQ(place_in_lanes(labels, {0, 900}), 1);
  EXPECT_LT(labels[0].left, 400);
  EXPECT_GT(labels[1].left, 410);
}

TEST(Lanes, NoneAtAll) {
  std::vector<LaneLabel> labels;
  EXPECT_EQ(place_in_lanes(labels, {0, 900}), 0);
}

RC_GTEST_PROP(Lanes, WordsNeverCoverWordsAndStayInside, ()) {
  const auto places = *rc::gen::resize(14, rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 900)));
  std::vector<LaneLabel> labels;
  for (const int x : places) labels.push_back({"", static_cast<double>(x), 0, 0, 60.0 + x % 7 * 20.0});
  auto again = labels;
  const int lanes = place_in_lanes(labels, {0, 900});
  RC_ASSERT(overlaps(labels) == 0);
  for (const LaneLabel& label : labels) {
    RC_ASSERT(label.lane < lanes);
    RC_ASSERT(label.left >= 0.0);
    RC_ASSERT(label.left + label.width <= 900.0);
  }
  RC_ASSERT(place_in_lanes(again, {0, 900}) == lanes);
  for (std::size_t i = 0; i < labels.size(); ++i) RC_ASSERT(again[i].left == labels[i].left);
}

}  // namespace
}  // namespace heatwork::report
