#include "physics/lobatto.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace heatwork::physics {
namespace {

TEST(Lobatto, IntegratesAndDifferentiatesPolynomialsExactly) {
  for (const std::size_t count : {2UL, 5UL, 9UL, 20UL}) {
    const LobattoPoints points = lobatto_points(count);
    EXPECT_EQ(points.place.front(), -1.0);
    EXPECT_EQ(points.place.back(), 1.0);
    for (std::size_t power = 0; power <= 2 * count - 3; ++power) {
      double sum = 0;
      for (std::size_t i = 0; i < count; ++i) sum += points.weight[i] * std::pow(points.place[i], power);
      EXPECT_NEAR(sum, power % 2 == 0 ? 2.0 / static_cast<double>(power + 1) : 0.0, 1e-13);
    }
    std::vector<double> values;
    for (const double x : points.place) values.push_back(std::pow(x, count - 1));
    for (std::size_t i = 0; i < count; ++i) {
      double slope = 0;
      for (std::size_t j = 0; j < count; ++j) slope += points.derivative[i * count + j] * values[j];
      EXPECT_NEAR(slope, static_cast<double>(count - 1) * std::pow(points.place[i], count - 2), 1e-10);
    }
    EXPECT_NEAR(points.value(values.data(), 0.3), std::pow(0.3, count - 1), 1e-13);
  }
}

TEST(Lobatto, RefusesTooFewAndTooMany) {
  EXPECT_THROW(lobatto_points(1), std::domain_error);
  EXPECT_THROW(lobatto_points(65), std::domain_error);
}

TEST(Lobatto, SolvesASystemWithShortRows) {
  SymmetricSystem system;
  system.shape({0, 0, 1, 0});
  const double full[4][4] = {{4, 1, 0, 0.5}, {1, 5, 2, 0}, {0, 2, 6, 1}, {0.5, 0, 1, 7}};
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = i == 2 ? 1 : 0; j <= i; ++j) system.at(i, j) = full[i][j];
  double b[4] = {1, 2, 3, 4};
  system.factor();
  system.solve(b);
  for (std::size_t i = 0; i < 4; ++i) {
    double sum = 0;
    for (std::size_t j = 0; j < 4; ++j) sum += full[i][j] * b[j];
    EXPECT_NEAR(sum, static_cast<double>(i + 1), 1e-14);
  }
}

}  // namespace
}  // namespace heatwork::physics
