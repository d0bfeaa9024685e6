#include "physics/decay.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace heatwork::physics {
namespace {

TEST(Decay, ExponentialIsRightToRounding) {
  for (double x = -700.0; x <= 700.0; x += 0.37) EXPECT_NEAR(plain_exp(x) / std::exp(x), 1.0, 2e-15) << x;
}

TEST(Decay, AgreesWithTheIntegralsItStandsFor) {
  for (const double y : {1e-12, 1e-6, 1e-3, 9.9e-3, 1.01e-2, 0.1, 1.0, 7.0, 50.0}) {
    double even = 0, skew = 0, sum = 0, sloped = 0;
    EXPECT_NEAR(decay(y, even, skew), std::exp(-y), 1e-14);
    constexpr int parts = 200000;
    for (int i = 0; i < parts; ++i) {
      const double v = (i + 0.5) / parts;  // from the end of the step back
      sum += std::exp(-y * v) / parts;
      sloped += std::exp(-y * v) * (1 - 2 * v) / parts;
    }
    EXPECT_NEAR(even, sum, 1e-8 * sum) << y;
    EXPECT_NEAR(skew, sloped, 1e-8 * std::abs(sloped) + 1e-10) << y;
  }
}

TEST(Decay, ManyAtOnceAreTheSameBytesAsOneByOne) {
  std::vector<double> y, kept(1003), even(1003), skew(1003);
  for (int i = 0; i < 1003; ++i) y.push_back(std::pow(10.0, -14.0 + 0.018 * i));
  decay_all(y.size(), y.data(), kept.data(), even.data(), skew.data());
  for (std::size_t i = 0; i < y.size(); ++i) {
    double one_even = 0, one_skew = 0;
    const double one = decay(y[i], one_even, one_skew);
    EXPECT_NEAR(kept[i], one, 4e-16 * one);
    EXPECT_NEAR(even[i], one_even, 1e-15);
    EXPECT_NEAR(skew[i], one_skew, 1e-13);
  }
}

TEST(Decay, NothingIsLeftOfWhatRelaxesLong) {
  double even = 0, skew = 0;
  EXPECT_LT(decay(1e250, even, skew), 1e-300);
  EXPECT_NEAR(even, 1e-250, 1e-260);
  EXPECT_NEAR(skew, 1e-250, 1e-260);
}

}  // namespace
}  // namespace heatwork::physics
