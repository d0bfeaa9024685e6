// Many firings of wires at several levels: the curve of the share that melts, and the classic up-and-down record.
#pragma once

#include <span>

namespace heatwork::metrology {

enum class MeltLink { logit, probit };

struct MeltCount {
  double display_C;
  double tested;
  double melted;
};

/// link(share) = intercept + slope * display; midpoint where half melts, spread 1 / slope.
struct MeltCurve {
  double intercept, slope, intercept_se, slope_se, midpoint_C, spread_K, deviance;
};

/// Maximum likelihood fit [link units, C, K].
/// Range: at least two levels, each with 1 or more tested; std::domain_error where the levels that melt and those that do not are
/// separated, for then no finite estimate exists, or where less melts as it gets hotter. source: dobson-2002, albert-anderson-1984
/// theory: (melt-test.4) (melt-test.5)
MeltCurve fit_melt_curve(MeltLink link, std::span<const MeltCount> counts);

/// Up-and-down estimate by counts of the rarer outcome.
struct UpAndDown {
  double rarer;         ///< N
  double lowest_level;  ///< of the rarer outcome
  double first_sum, second_sum;
  double mean_C, scatter, spread_K;
};

/// The up-and-down estimate of mean and spread, equal steps [C, K].
/// mean = x0 + d (A / N -+ 1/2), s = 1.620 d (M + 0.029), M = (N B - A^2) / N^2, for tens of trials and M above 0.3 only.
/// Range: levels on whole steps, both outcomes present, else std::domain_error. source: dixon-mood-1948 theory: (melt-test.6)
UpAndDown up_and_down(std::span<const double> levels_C, std::span<const bool> melted, double step_K);

}  // namespace heatwork::metrology
