#include "physics/response_surface.h"

#include <gtest/gtest.h>

#include <cmath>

#include "physics/stress_interval.h"

namespace heatwork::physics {
namespace {

std::vector<SpreadPoint> spread(std::size_t count, std::size_t from = 0) {
  std::vector<SpreadPoint> all;
  for (std::size_t i = 0; i < count; ++i) all.push_back(spread_point(7, from + i));
  return all;
}

double quadratic(const SpreadPoint& x) {
  return 3 - 2 * x[0] + x[1] * x[2] - 4 * x[3] * x[3] + 0.5 * x[0] * x[3];
}

TEST(ResponseSurface, MissesNothingOfWhatItsPolynomialsSpan) {
  const auto members = spread(32), others = spread(100, 32);
  std::vector<double> values;
  for (const SpreadPoint& one : members) values.push_back(quadratic(one));
  const ResponseSurface surface(members);
  const auto fit = surface.fit(values);
  EXPECT_LT(fit.misses, 1e-12);
  const auto found = surface.values(fit, surface.at(others));
  for (std::size_t i = 0; i < others.size(); ++i) EXPECT_NEAR(found[i], quadratic(others[i]), 1e-11);
}

TEST(ResponseSurface, TellsByHowMuchItMissesTheRest) {
  const auto bent = [](const SpreadPoint& x) { return std::abs(x[0] - 0.5) + std::sin(9 * x[1]); };
  for (const std::size_t count : {64U, 256U}) {
    const auto members = spread(count), others = spread(2000, count);
    std::vector<double> values;
    for (const SpreadPoint& one : members) values.push_back(bent(one));
    const ResponseSurface surface(members);
    const auto fit = surface.fit(values);
    const auto found = surface.values(fit, surface.at(others));
    double squares = 0;
    for (std::size_t i = 0; i < others.size(); ++i) squares += std::pow(found[i] - bent(others[i]), 2);
    const double truly = std::sqrt(squares / static_cast<double>(others.size()));
    EXPECT_GT(truly, 0.01);
    EXPECT_NEAR(fit.misses, truly, 0.35 * truly) << count;
  }
}

}  // namespace
}  // namespace heatwork::physics
