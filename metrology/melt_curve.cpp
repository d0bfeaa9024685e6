#include "metrology/melt_curve.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "metrology/distributions.h"
#include "metrology/number_text.h"

namespace heatwork::metrology {
namespace {

void check_counts(std::span<const MeltCount> counts) {
  double hottest_whole = -HUGE_VAL, coldest_melted = HUGE_VAL, hottest_melted = -HUGE_VAL, coldest_whole = HUGE_VAL;
  for (const MeltCount& count : counts) {
    if (!std::isfinite(count.display_C)) throw std::domain_error("A display is not a finite number.");
    if (!(count.tested >= 1.0 && count.melted >= 0.0 && count.melted <= count.tested && count.tested < 1e9)) {
      throw std::domain_error("At " + number_text(count.display_C) + " °C " + number_text(count.melted) + " of " +
                              number_text(count.tested) + " melted: at least one must be tested, and no more can melt than were tested.");
    }
    if (count.melted > 0.0) {
      coldest_melted = std::min(coldest_melted, count.display_C);
      hottest_melted = std::max(hottest_melted, count.display_C);
    }
    if (count.melted < count.tested) {
      coldest_whole = std::min(coldest_whole, count.display_C);
      hottest_whole = std::max(hottest_whole, count.display_C);
    }
  }
  if (hottest_whole <= coldest_melted || hottest_melted <= coldest_whole) {
    throw std::domain_error("No finite estimate exists: the levels at which wires melted and those at which they did not are separated.");
  }
}

/// Share, its complement and the slope of the share against the linear predictor.
struct Share {
  double melts, stays, slope;
};

Share share_at(MeltLink link, double predictor) {
  if (link == MeltLink::probit) return {normal_share_below(predictor), normal_share_below(-predictor), normal_density(predictor)};
  const double melts = 1.0 / (1.0 + std::exp(-predictor)), stays = 1.0 / (1.0 + std::exp(predictor));
  return {melts, stays, melts * stays};
}

struct Line {
  double at_middle, slope;
};

double deviance_of(MeltLink link, std::span<const MeltCount> counts, double middle, Line line) {
  double sum = 0.0;
  for (const MeltCount& count : counts) {
    const Share share = share_at(link, line.at_middle + line.slope * (count.display_C - middle));
    const double stayed = count.tested - count.melted;
    if (count.melted > 0.0) sum += count.melted * (std::log(count.melted / count.tested) - std::log(share.melts));
    if (stayed > 0.0) sum += stayed * (std::log(stayed / count.tested) - std::log(share.stays));
  }
  return 2.0 * sum;
}

/// Sums of a step by Fisher's scoring: weights, and the score.
struct Scoring {
  double w = 0, wx = 0, wxx = 0, u = 0, ux = 0;
};

Scoring scoring_of(MeltLink link, std::span<const MeltCount> counts, double middle, Line line) {
  Scoring sums;
  for (const MeltCount& count : counts) {
    const double x = count.display_C - middle;
    const Share share = share_at(link, line.at_middle + line.slope * x);
    const double variance = std::max(share.melts * share.stays, 1e-300);
    const double weight = count.tested * share.slope * share.slope / variance;
    const double pull = (count.melted * share.stays - (count.tested - count.melted) * share.melts) * share.slope / variance;
    sums.w += weight;
    sums.wx += weight * x;
    sums.wxx += weight * x * x;
    sums.u += pull;
    sums.ux += pull * x;
  }
  return sums;
}

}  // namespace

MeltCurve fit_melt_curve(MeltLink link, std::span<const MeltCount> counts) {
  check_counts(counts);
  double middle = 0.0;
  for (const MeltCount& count : counts) middle += count.display_C / static_cast<double>(counts.size());
  Line line{0.0, 0.0};
  double deviance = deviance_of(link, counts, middle, line);
  for (int step = 0; step < 200; ++step) {
    const Scoring s = scoring_of(link, counts, middle, line);
    const double determinant = s.w * s.wxx - s.wx * s.wx;
    const Line move{(s.wxx * s.u - s.wx * s.ux) / determinant, (s.w * s.ux - s.wx * s.u) / determinant};
    double share = 1.0;
    Line next{line.at_middle + move.at_middle, line.slope + move.slope};
    double there = deviance_of(link, counts, middle, next);
    while (!(there <= deviance + 1e-9) && share > 1e-6) {  // halve a step that would go past the maximum
      share *= 0.5;
      next = {line.at_middle + share * move.at_middle, line.slope + share * move.slope};
      there = deviance_of(link, counts, middle, next);
    }
    const bool still = std::abs(next.at_middle - line.at_middle) < 1e-13 * (1.0 + std::abs(next.at_middle)) &&
                       std::abs(next.slope - line.slope) < 1e-13 * std::abs(next.slope);
    line = next;
    deviance = there;
    if (still) break;
  }
  if (!(line.slope > 0.0))
    throw std::domain_error("Less melts as the display rises: look at the readings, or at the order of the columns.");
  const Scoring s = scoring_of(link, counts, middle, line);
  const double determinant = s.w * s.wxx - s.wx * s.wx;
  const double variance_at_middle = s.wxx / determinant, variance_slope = s.w / determinant, covariance = -s.wx / determinant;
  MeltCurve out{};
  out.intercept = line.at_middle - line.slope * middle;
  out.slope = line.slope;
  out.slope_se = std::sqrt(variance_slope);
  out.intercept_se = std::sqrt(variance_at_middle + middle * middle * variance_slope - 2.0 * middle * covariance);
  out.midpoint_C = middle - line.at_middle / line.slope;
  out.spread_K = 1.0 / line.slope;
  out.deviance = deviance;
  return out;
}

UpAndDown up_and_down(std::span<const double> levels_C, std::span<const bool> melted, double step_K) {
  if (levels_C.size() != melted.size() || levels_C.empty())
    throw std::domain_error("Levels and outcomes must be lists of the same length, not empty.");
  if (!(step_K > 0.0 && std::isfinite(step_K))) throw std::domain_error("The step must be above 0 K.");
  const auto melts = static_cast<std::size_t>(std::count(melted.begin(), melted.end(), true));
  if (melts == 0 || melts == melted.size()) throw std::domain_error("No estimate exists: all of the wires melted, or none did.");
  const bool of_melts = 2 * melts <= melted.size();
  UpAndDown out{};
  out.lowest_level = HUGE_VAL;
  for (std::size_t i = 0; i < levels_C.size(); ++i) {
    if (melted[i] == of_melts) out.lowest_level = std::min(out.lowest_level, levels_C[i]);
  }
  for (std::size_t i = 0; i < levels_C.size(); ++i) {
    if (melted[i] != of_melts) continue;
    const double steps = (levels_C[i] - out.lowest_level) / step_K;
    if (!(std::abs(steps - std::round(steps)) < 1e-6)) throw std::domain_error("The levels must lie on whole steps.");
    out.rarer += 1.0;
    out.first_sum += steps;
    out.second_sum += steps * steps;
  }
  out.mean_C = out.lowest_level + step_K * (out.first_sum / out.rarer + (of_melts ? -0.5 : 0.5));
  out.scatter = (out.rarer * out.second_sum - out.first_sum * out.first_sum) / (out.rarer * out.rarer);
  out.spread_K = 1.620 * step_K * (out.scatter + 0.029);
  return out;
}

}  // namespace heatwork::metrology
