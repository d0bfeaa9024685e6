#include "physics/rising_root.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace heatwork::physics {
namespace {

TEST(rising_root, finds_it_wherever_it_begins_and_whatever_slope_it_is_told) {
  for (const double root : {-149.9, -12.0, 0.0, 3e-4, 77.0, 150.0}) {
    for (const double slope : {1e-3, 0.03, 5.0}) {
      const RisingRoot found = rising_root([&](double x) { return std::expm1(0.03 * (x - root)); }, {-150, 150, 0, slope, 1e-6});
      EXPECT_TRUE(found.within()) << root << " with slope " << slope;
      EXPECT_NEAR(found.x, root, 1e-5) << root << " with slope " << slope;
    }
  }
}

TEST(rising_root, says_on_which_side_of_the_bounds_it_lies) {
  const auto at = [](double root) { return [root](double x) { return x - root; }; };
  EXPECT_TRUE(rising_root(at(-151), {-150, 150, 0, 1, 0.01}).below);
  EXPECT_TRUE(rising_root(at(151), {-150, 150, 0, 1, 0.01}).above);
  EXPECT_TRUE(rising_root(at(-1), {0, 3600, 0, 1, 0.01}).below) << "the search begins on the bound itself";
  EXPECT_TRUE(rising_root(at(-1), {0, 0, 0, 1, 0.01}).below) << "a hold of no length cannot be cut";
}

TEST(rising_root, passes_where_the_function_is_without_bound) {
  const auto log_like = [](double x) { return x <= 10 ? -std::numeric_limits<double>::infinity() : std::log(x - 10) - 1; };
  const RisingRoot found = rising_root(log_like, {-150, 150, 0, 0.03, 1e-6});
  EXPECT_NEAR(found.x, 10 + std::exp(1.0), 1e-4);
}

TEST(rising_root, does_not_stall_on_a_function_that_is_nearly_flat_and_then_a_wall) {
  const auto flat_then_wall = [](double x) { return -1e-9 + 1e-12 * x + std::exp(40 * (x - 3500)); };
  const RisingRoot found = rising_root(flat_then_wall, {-60, 3600, 0, 1.0 / 60, 1e-5});
  EXPECT_TRUE(found.within());
  EXPECT_NEAR(flat_then_wall(found.x), 0, 1e-9);
}

TEST(rising_root, refuses_what_is_no_number_or_does_not_rise) {
  EXPECT_THROW(rising_root([](double) { return std::numeric_limits<double>::quiet_NaN(); }, {0, 1, 0, 1, 0.1}), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
