#include "metrology/melting_threshold.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "metrology/display_limits.h"
#include "metrology/distributions.h"
#include "metrology/range.h"

namespace heatwork::metrology {
namespace {

// Spreads and their weights before any firing. Standing: assumed (one bench's practice is not known). source: chosen-here
constexpr std::array<double, 6> usual_spreads_K = {1.0, 1.5, 2.0, 3.0, 4.0, 6.0};
constexpr std::array<double, 6> usual_weights = {0.15, 0.20, 0.25, 0.20, 0.12, 0.08};
constexpr double poor_spread_K = 4.0;

// The rules of stopping and advice. Standing: assumed. source: chosen-here
constexpr double narrow_enough_K = 5.0;  ///< of 1.96 standard deviations
constexpr double normal_factor_95 = 1.959963985;
constexpr std::size_t most_firings = 5;
constexpr double contradictory_share = 0.5;

constexpr double grid_reach_sd = 6.0;
constexpr double search_reach_sd = 1.2;

void check_asked(const MeltPrior& prior, std::span<const MeltTrial> trials) {
  require_within(prior.sd_K, 0.1, 60.0, "The standard deviation before the test (K)");
  require_within(prior.lapse, 0.0, 0.5, "The lapse");
  if (prior.spread_K) require_within(*prior.spread_K, 0.1, 50.0, "The spread (K)");
  require_within(prior.melting_C, 100.0, 2000.0, "The melting temperature (°C)");
  require_within(prior.mean_C, prior.melting_C - 200.0, prior.melting_C + 200.0, "The threshold expected before the test (°C)");
  require_within(static_cast<double>(trials.size()), 0.0, 200.0, "The number of trials");
  for (const MeltTrial& trial : trials)
    require_within(trial.display_C, prior.mean_C - 300.0, prior.mean_C + 300.0, "The display of a trial (°C)");
}

/// Weights of thresholds (columns) under each spread (rows), summing to 1.
class Posterior {
 public:
  explicit Posterior(const MeltPrior& prior) : lapse_(prior.lapse) {
    if (prior.spread_K) {
      spreads_K_ = {*prior.spread_K};
      spread_weights_ = {1.0};
    } else {
      spreads_K_.assign(usual_spreads_K.begin(), usual_spreads_K.end());
      spread_weights_.assign(usual_weights.begin(), usual_weights.end());
    }
    const double wanted_K = std::min({0.05, spreads_K_.front() / 10.0, prior.sd_K / 40.0});
    step_K_ = 1.0 / std::ceil(1.0 / wanted_K);
    first_C_ = std::floor(prior.mean_C - grid_reach_sd * prior.sd_K);
    count_ = static_cast<std::size_t>(std::ceil((prior.mean_C + grid_reach_sd * prior.sd_K - first_C_) / step_K_)) + 1;
    for (const double weight : spread_weights_) {
      for (std::size_t j = 0; j < count_; ++j) weights_.push_back(weight * normal_density((threshold(j) - prior.mean_C) / prior.sd_K));
    }
    normalise();
  }

  void learn(const MeltTrial& trial) {
    for (std::size_t s = 0; s < spreads_K_.size(); ++s) {
      for (std::size_t j = 0; j < count_; ++j) {
        const double melts = chance(trial.display_C - threshold(j), spreads_K_[s]);
        weights_[s * count_ + j] *= trial.melted ? melts : 1.0 - melts;
      }
    }
    normalise();
  }

  void describe(MeltEstimate& out) const {
    std::vector<double> share(count_, 0.0);
    out.poor_spread_share = 0.0;
    for (std::size_t s = 0; s < spreads_K_.size(); ++s) {
      for (std::size_t j = 0; j < count_; ++j) share[j] += weights_[s * count_ + j];
      if (spreads_K_.size() > 1 && spreads_K_[s] >= poor_spread_K) {
        for (std::size_t j = 0; j < count_; ++j) out.poor_spread_share += weights_[s * count_ + j];
      }
    }
    double mean = 0.0, square = 0.0;
    for (std::size_t j = 0; j < count_; ++j) mean += share[j] * threshold(j);
    for (std::size_t j = 0; j < count_; ++j) square += share[j] * (threshold(j) - mean) * (threshold(j) - mean);
    out.threshold_C = mean;
    out.sd_K = std::sqrt(square);
    out.low_C = quantile(share, 0.025);
    out.median_C = quantile(share, 0.5);
    out.high_C = quantile(share, 0.975);
  }

  /// The whole degree whose outcome is expected to leave the least entropy of the threshold.
  [[nodiscard]] double best_level(const MeltEstimate& now) const {
    const auto stride = static_cast<std::size_t>(std::max(1.0, std::floor(std::min(0.25, now.sd_K / 12.0) / step_K_)));
    double best_C = std::round(now.median_C), least = expected_entropy(best_C, stride);
    const double last_C = std::floor(now.threshold_C + search_reach_sd * now.sd_K);
    for (double level_C = std::ceil(now.threshold_C - search_reach_sd * now.sd_K); level_C <= last_C; level_C += 1.0) {
      const double entropy = expected_entropy(level_C, stride);
      if (entropy < least - 1e-12) {
        least = entropy;
        best_C = level_C;
      }
    }
    return best_C;
  }

 private:
  [[nodiscard]] double threshold(std::size_t j) const { return first_C_ + step_K_ * static_cast<double>(j); }
  [[nodiscard]] double chance(double above_K, double spread_K) const {
    return 0.5 * lapse_ + (1.0 - lapse_) * normal_share_below(above_K / spread_K);
  }

  void normalise() {
    double sum = 0.0;
    for (const double weight : weights_) sum += weight;
    if (!(sum > 0.0))
      throw std::domain_error("Under the threshold, spread and lapse that were given this record is impossible: a reading must be wrong.");
    for (double& weight : weights_) weight /= sum;
  }

  [[nodiscard]] double quantile(const std::vector<double>& share, double below) const {
    double sum = 0.0;
    for (std::size_t j = 0; j < count_; ++j) {
      if (sum + share[j] >= below) return threshold(j) + step_K_ * ((below - sum) / share[j] - 0.5);
      sum += share[j];
    }
    return threshold(count_ - 1);
  }

  [[nodiscard]] double expected_entropy(double level_C, std::size_t stride) const {
    constexpr double negligible = 1e-9;
    double melts = 0.0, not_melts = 0.0, sum_melts = 0.0, sum_not = 0.0;
    for (std::size_t j = 0; j < count_; j += stride) {
      double joint_melts = 0.0, joint_not = 0.0;
      for (std::size_t s = 0; s < spreads_K_.size(); ++s) {
        const double weight = weights_[s * count_ + j];
        if (weight < negligible * step_K_) continue;
        const double here = chance(level_C - threshold(j), spreads_K_[s]);
        joint_melts += weight * here;
        joint_not += weight * (1.0 - here);
      }
      melts += joint_melts;
      not_melts += joint_not;
      if (joint_melts > 0.0) sum_melts += joint_melts * std::log(joint_melts);
      if (joint_not > 0.0) sum_not += joint_not * std::log(joint_not);
    }
    const auto part = [](double sum, double all) { return all > 0.0 ? all * std::log(all) - sum : 0.0; };
    return (part(sum_melts, melts) + part(sum_not, not_melts)) / (melts + not_melts);
  }

  double lapse_, step_K_ = 0.0, first_C_ = 0.0;
  std::size_t count_ = 0;
  std::vector<double> spreads_K_, spread_weights_, weights_;
};

bool contradicts_itself(std::span<const MeltTrial> trials) {
  return std::any_of(trials.begin(), trials.end(), [&](const MeltTrial& low) {
    return low.melted && std::any_of(trials.begin(), trials.end(),
                                     [&](const MeltTrial& high) { return !high.melted && high.display_C >= low.display_C; });
  });
}

MeltAdvice advice_of(const MeltEstimate& now, const MeltPrior& prior, std::size_t firings) {
  if (firings == 0) return MeltAdvice::test_next;
  if (firings < most_firings && now.poor_spread_share > contradictory_share) return MeltAdvice::repeat;
  if (firings < most_firings && normal_factor_95 * now.sd_K > narrow_enough_K) return MeltAdvice::test_next;
  if (std::abs(now.offset_K) > beyond_use_K) return MeltAdvice::stop_use;
  const bool real = prior.melting_C < now.low_C || prior.melting_C > now.high_C;
  return std::abs(now.offset_K) > usual_display_limit_K && real ? MeltAdvice::correct : MeltAdvice::leave;
}

}  // namespace

MeltEstimate estimate_melt_threshold(const MeltPrior& prior, std::span<const MeltTrial> trials) {
  check_asked(prior, trials);
  Posterior posterior(prior);
  for (const MeltTrial& trial : trials) posterior.learn(trial);
  MeltEstimate out{};
  posterior.describe(out);
  out.offset_K = out.threshold_C - prior.melting_C;
  out.contradictory = contradicts_itself(trials);
  out.advice = advice_of(out, prior, trials.size());
  if (out.advice == MeltAdvice::test_next) out.next_display_C = trials.empty() ? std::round(out.median_C) : posterior.best_level(out);
  if (out.advice == MeltAdvice::repeat) out.next_display_C = trials.back().display_C;
  return out;
}

}  // namespace heatwork::metrology
