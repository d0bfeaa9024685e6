#include "firing/column.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

namespace heatwork::firing {
namespace {

const std::vector<double> times = {0, 10, 10, 30};
const std::vector<double> column = {1, 2, 5, 7};

TEST(column, is_linear_between_points_and_keeps_its_ends) {
  EXPECT_DOUBLE_EQ(value_at(times, column, -3), 1);
  EXPECT_DOUBLE_EQ(value_at(times, column, 5), 1.5);
  EXPECT_DOUBLE_EQ(value_at(times, column, 20), 6);
  EXPECT_DOUBLE_EQ(value_at(times, column, 99), 7);
}

TEST(column, reads_many_as_it_reads_one) {
  const std::vector<double> to = {-3, 0, 4, 15, 30, 99};
  const std::vector<double> many = read_off(times, column, to);
  for (std::size_t i = 0; i < to.size(); ++i) EXPECT_DOUBLE_EQ(many[i], value_at(times, column, to[i])) << to[i];
}

TEST(column, refuses_a_column_of_another_length) {
  EXPECT_THROW(value_at(times, {column.data(), 3}, 1), std::logic_error);
  EXPECT_THROW(value_at({}, {}, 1), std::logic_error);
}

}  // namespace
}  // namespace heatwork::firing
