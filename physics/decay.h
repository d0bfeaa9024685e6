// exp(-y) and its mean over a step, for many values at once: no branches, so that a compiler may take several at a time.
#pragma once

#include <bit>
#include <cstddef>
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

/// exp(-y), 0 beyond 700; into `even` what a unit added evenly over the step leaves at its end, (1 - exp(-y)) / y; and into `skew` what is
/// left of one added with a slope, 1 at the end and -1 at the start: (1 + exp(-y)) / y - 2 (1 - exp(-y)) / y2. y at least 0 [1].
/// source: markovsky-soules-1984, chosen-here theory: (cooling-stress.4)
inline double decay(double y, double& even, double& skew) {
  constexpr double small = 1e-2;
  const double bounded = y < 700.0 ? y : 700.0, kept = plain_exp(-bounded), inverse = 1.0 / (y > small ? y : small);
  const double closed = (1.0 - kept) * inverse;
  even = y > small ? closed : 1.0 - y * (0.5 - y * (1.0 / 6.0 - y * (1.0 / 24.0 - y / 120.0)));
  skew = y > small ? closed - 2.0 * (closed - kept) * inverse : y * (1.0 / 6.0 - y * (1.0 / 12.0 - y * (0.025 - y / 180.0)));
  return kept;
}

/// `decay` of many values: each of its place [1]. The same bytes on every processor. source: markovsky-soules-1984
/// theory: (cooling-stress.4)
void decay_all(std::size_t count, const double* y, double* kept, double* even, double* skew);

}  // namespace heatwork::physics
