// The melt test: from a few firings of a wire that melted or did not, the display at which it half melts, how sure that is, and what next.
#pragma once

#include <optional>
#include <span>

namespace heatwork::metrology {

/// One firing of a fresh wire to a display value.
struct MeltTrial {
  double display_C;
  bool melted;
};

/// What is known before the first firing. Chance to melt: lapse / 2 + (1 - lapse) Phi((display - threshold) / spread).
struct MeltPrior {
  double melting_C;                ///< true melting temperature of the wire in its gas
  double mean_C;                   ///< of the display threshold
  double sd_K;                     ///< 12 for a furnace never checked, 6 after a recent check
  std::optional<double> spread_K;  ///< unknown where absent: six values from 1 to 6 K
  double lapse = 0.02;             ///< share of readings that say nothing
};

/// After 5 firings there is no further one: repeat and test_next come before that only.
enum class MeltAdvice { test_next, repeat, leave, correct, stop_use };

struct MeltEstimate {
  double threshold_C, sd_K, median_C, low_C, high_C;  ///< of the display threshold; low to high holds 95 %
  double offset_K;                                    ///< threshold - melting: above 0 the display reads too high
  double poor_spread_share;                           ///< chance that the spread is 4 K or more; 0 where the spread is given
  std::optional<double> next_display_C;               ///< where another firing is advised
  bool contradictory;                                 ///< a wire stayed whole at a display at or above one where another melted
  MeltAdvice advice;
};

/// Posterior of the threshold on a grid, the next level by least expected entropy, and the advice [C, K].
/// Range: sd 0.1 to 60 K, spread 0.1 to 50 K, lapse 0 to 0.5, at most 200 trials within 300 K of the mean; else std::domain_error, also
/// where the record is impossible under what was given. source: kontsevich-tyler-1999 theory: (melt-test.1) (melt-test.2) (melt-test.3)
MeltEstimate estimate_melt_threshold(const MeltPrior& prior, std::span<const MeltTrial> trials);

}  // namespace heatwork::metrology
