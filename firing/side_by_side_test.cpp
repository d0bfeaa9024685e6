#include "firing/side_by_side.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <vector>

namespace heatwork::firing {
namespace {

TEST(SideBySide, EveryPartIsDoneOnce) {
  for (const unsigned workers : {0U, 1U, 3U, 64U}) {
    std::vector<int> done(100, 0);
    side_by_side(done.size(), workers, [&](std::size_t i) { ++done[i]; });
    EXPECT_EQ(done, std::vector<int>(100, 1)) << workers;
  }
  side_by_side(0, 2, [](std::size_t) { FAIL() << "there is no part"; });
}

TEST(SideBySide, TheFirstPartThatFailsIsTold) {
  int others = 0;
  const auto part = [&](std::size_t i) {
    if (i == 3 || i == 7) throw std::domain_error(std::to_string(i));
    if (i == 9) ++others;
  };
  try {
    side_by_side(10, 4, part);
    FAIL() << "nothing was thrown";
  } catch (const std::domain_error& error) {
    EXPECT_STREQ(error.what(), "3");
  }
  EXPECT_EQ(others, 1) << "the other parts are done all the same";
}

}  // namespace
}  // namespace heatwork::firing
