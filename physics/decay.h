// exp(-y) and its mean over a step, for many values at once: no branches, so that a compiler may take several at a time.
#pragma once

#include <bit>
#include <cstdint>

namespace heatwork::physics {

/// exp(x) for x from -700 to 700, to 2e-15 relative [1]. source: abramowitz-stegun theory: (cooling-stress.8)
inline double plain_exp(double x) {
  constexpr double per_ln2 = 1.4426950408889634, ln2_high = 0.693145751953125, ln2_low = 1.42860682030941723212e-6;
  constexpr double rounds = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds to a whole number
  const double shifted = x * per_ln2 + rounds, whole = shifted - rounds, r = (x - whole * ln2_high) - whole * ln2_low;
  double p = 1.0 / 479001600.0;
  p = p * r + 1.0 / 39916800.0;
  p = p * r + 1.0 / 3628800.0;
  p = p * r + 1.0 / 362880.0;
  p = p * r + 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  const std::uint64_t bits = (std::bit_cast<std::uint64_t>(shifted) << 52) + (std::uint64_t{1023} << 52);
  return p * std::bit_cast<double>(bits);
}

/// exp(-y), 0 beyond 700, and (1 - exp(-y)) / y into `lag`; y at least 0 [1]. source: markovsky-soules-1984 theory: (cooling-stress.4)
inline double decay(double y, double& lag) {
  const double bounded = y < 700.0 ? y : 700.0, kept = plain_exp(-bounded), safe = y > 1e-4 ? y : 1e-4;
  const double series = 1.0 - y * (0.5 - y * (1.0 / 6.0 - y / 24.0)), closed = (1.0 - kept) / safe;
  lag = y > 1e-4 ? closed : series;
  return kept;
}

}  // namespace heatwork::physics
