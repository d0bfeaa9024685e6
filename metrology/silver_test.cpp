#include "metrology/silver.h"

#include <gtest/gtest.h>

#include <array>
#include <stdexcept>

namespace heatwork::metrology {
namespace {

TEST(silver, melts_lower_the_more_oxygen_there_is) {
  EXPECT_DOUBLE_EQ(silver_melting_C(0.0), silver_freezing_C);
  EXPECT_NEAR(silver_melting_C(0.2095), 951.61, 0.02);
  EXPECT_NEAR(silver_melting_C(0.2095 * 50.0 / 1013.25), 959.51, 0.02);
  EXPECT_NEAR(silver_melting_C(1.0), 939.65, 0.02);
}

TEST(silver, refuses_what_cannot_be) {
  EXPECT_THROW(silver_melting_C(-0.01), std::domain_error);
  EXPECT_THROW(silver_melting_C(1.01), std::domain_error);
  EXPECT_THROW(silver_melting_C(0.2, 0.2), std::domain_error);
}

TEST(silver, a_history_reaches_it_or_not) {
  const std::array<double, 3> below = {900, 961.7, 880}, above = {900, 961.8, 880};
  EXPECT_FALSE(reaches_melting(below, silver_freezing_C));
  EXPECT_TRUE(reaches_melting(above, silver_freezing_C));
}

}  // namespace
}  // namespace heatwork::metrology
