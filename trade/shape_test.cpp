#include "trade/shape.h"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>
#include <string>

namespace heatwork::trade {
namespace {

TEST(Shape, EveryValueLiesInsideItsRange) {
  for (const ShapeDefaults& shape : shapes()) {
    EXPECT_LT(shape.section_area.low, shape.section_area.value) << shape.word;
    EXPECT_LT(shape.section_area.value, shape.section_area.high) << shape.word;
    EXPECT_LT(shape.inner_radius.low, shape.inner_radius.value) << shape.word;
    EXPECT_LT(shape.inner_radius.value, shape.inner_radius.high) << shape.word;
  }
}

TEST(Shape, EveryWordIsItsOwnAndIsFound) {
  std::set<std::string_view> words;
  for (const ShapeDefaults& shape : shapes()) {
    EXPECT_TRUE(words.insert(shape.word).second) << shape.word;
    EXPECT_EQ(shape_defaults(shape.word).word, shape.word);
  }
}

TEST(Shape, ABridgeIsLargerThanACrownAndACrownThanAnInlay) {
  EXPECT_GT(shape_defaults("three-unit bridge").section_area.value, shape_defaults("crown").section_area.value);
  EXPECT_GT(shape_defaults("crown").section_area.value, shape_defaults("inlay").section_area.value);
}

TEST(Shape, AnUnknownWordIsRefusedWithTheWordsThereAre) {
  try {
    (void)shape_defaults("crwn");
    FAIL() << "not refused";
  } catch (const std::domain_error& error) {
    EXPECT_STREQ(error.what(), "there is no shape named \"crwn\"; shapes are: crown, three-unit bridge, veneer, inlay, bar, disc");
  }
}

}  // namespace
}  // namespace heatwork::trade
