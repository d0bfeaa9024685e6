#include "metrology/drift_verdict.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace heatwork::metrology {
namespace {

// What is believed before the checks, and from what chance on a verdict is firm. Chosen on seeds other than those of the proof.
// Standing: assumed. source: chosen-here
constexpr double before_none = 0.5;
constexpr double level_sd_K = 30.0;
constexpr double change_mean_K = 9.0, change_sd_K = 4.0;  ///< of a change that matters, up or down
constexpr double process_sd_K = 1.5;                      ///< what a sound furnace does from check to check
constexpr double firm_none = 0.8, firm_change = 0.85;
constexpr std::size_t fewest = 6, fewest_beside = 2;
constexpr double contradicted_sd = 4.0;

struct Scale {
  double factor, weight;
};
/// How far the stated uncertainties may be off, in common.
constexpr std::array<Scale, 5> scales = {{{0.6, 0.1}, {0.8, 0.25}, {1.0, 0.35}, {1.25, 0.2}, {1.6, 0.1}}};

/// Weighted sums from one check to the last; x is 1 for a step, the share of the time gone by for a drift.
struct Sums {
  double w = 0, y = 0, t = 0, tt = 0, ty = 0;
};

/// Checks that take part, time as a share of the record.
struct Series {
  std::vector<double> time, offset, weight;
  std::vector<Sums> from;  ///< sums over this check and all after it
  double yy = 0, log_weights = 0;
};

void check(std::span<const DriftPoint> points) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!(points[i].uncertainty_K > 0.0 && std::isfinite(points[i].uncertainty_K) && std::isfinite(points[i].offset_K)))
      throw std::domain_error("A check needs a finite offset and an uncertainty above 0 K.");
    if (i > 0 && !(points[i].day >= points[i - 1].day))
      throw std::domain_error("The days of the checks must not fall: the clock went back.");
  }
}

double variance_of(const DriftPoint& point) {
  return point.uncertainty_K * point.uncertainty_K + process_sd_K * process_sd_K;
}

/// Two checks before and two after agree with each other, and this one with none of them.
bool contradicted(std::span<const DriftPoint> points, std::size_t at) {
  if (at < 2 || at + 2 >= points.size()) return false;
  double low = HUGE_VAL, high = -HUGE_VAL, variance = 0;
  for (const std::size_t beside : {at - 2, at - 1, at + 1, at + 2}) {
    low = std::min(low, points[beside].offset_K);
    high = std::max(high, points[beside].offset_K);
    variance = std::max(variance, variance_of(points[beside]));
  }
  const double allowed = contradicted_sd * std::sqrt(std::max(variance, variance_of(points[at])));
  const double beyond = std::max(points[at].offset_K - high, low - points[at].offset_K);
  return high - low < allowed && beyond > 0.0 && std::abs(points[at].offset_K - 0.5 * (low + high)) > allowed;
}

Series series_of(std::span<const DriftPoint> points, std::vector<std::size_t>& index, std::vector<std::size_t>& aside) {
  Series out;
  const double whole = points.back().day - points.front().day;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (contradicted(points, i)) {
      aside.push_back(i);
      continue;
    }
    index.push_back(i);
    out.time.push_back((points[i].day - points.front().day) / whole);
    out.offset.push_back(points[i].offset_K);
    out.weight.push_back(1.0 / variance_of(points[i]));
    out.yy += out.weight.back() * out.offset.back() * out.offset.back();
    out.log_weights += std::log(out.weight.back());
  }
  out.from.resize(out.time.size() + 1);
  for (std::size_t i = out.time.size(); i-- > 0;) {
    const double w = out.weight[i], t = out.time[i], y = out.offset[i];
    const Sums& after = out.from[i + 1];
    out.from[i] = {after.w + w, after.y + w * y, after.t + w * t, after.tt + w * t * t, after.ty + w * t * y};
  }
  return out;
}

/// Log of the marginal likelihood, and mean and variance of the change.
struct Weighed {
  double log_evidence, change, variance;
};

Weighed without_change(const Series& s, double scale) {
  const double factor = 1.0 / (scale * scale), prior = 1.0 / (level_sd_K * level_sd_K);
  const double a = factor * s.from[0].w + prior, b = factor * s.from[0].y;
  const auto n = static_cast<double>(s.time.size());
  return {0.5 * (s.log_weights + n * std::log(factor) + std::log(prior) - std::log(a) - factor * s.yy + b * b / a), 0, 0};
}

/// The sums of x, x x and x y of a change, weighted.
struct ChangeSums {
  double x, xx, xy;
};

Weighed with_change(const Series& s, const ChangeSums& sums, double scale, double expected_K) {
  const double factor = 1.0 / (scale * scale);
  const double level_prior = 1.0 / (level_sd_K * level_sd_K), change_prior = 1.0 / (change_sd_K * change_sd_K);
  const double a = factor * s.from[0].w + level_prior, b = factor * sums.x, c = factor * sums.xx + change_prior;
  const double y = factor * s.from[0].y, z = factor * sums.xy + change_prior * expected_K, det = a * c - b * b;
  const double fitted = (c * y * y - 2.0 * b * y * z + a * z * z) / det;
  const auto n = static_cast<double>(s.time.size());
  return {0.5 * (s.log_weights + n * std::log(factor) + std::log(level_prior * change_prior) - std::log(det) - factor * s.yy -
                 change_prior * expected_K * expected_K + fitted),
          (a * z - b * y) / det, a / det};
}

ChangeSums step_at(const Series& s, std::size_t first) {
  const Sums& after = s.from[first];
  return {after.w, after.w, after.y};
}

/// x rises from 0 at this check to 1 at the last one.
ChangeSums drift_from(const Series& s, std::size_t first) {
  const Sums& after = s.from[first];
  const double from = s.time[first], span = s.time.back() - from;
  return {(after.t - from * after.w) / span, (after.tt - 2.0 * from * after.t + from * from * after.w) / (span * span),
          (after.ty - from * after.y) / span};
}

/// One kind of change over all its places and scales: weights against the greatest, added up.
struct Kind {
  std::vector<double> logs;
  std::vector<Weighed> weighed;
  std::vector<std::size_t> place;
};

Kind weigh(const Series& s, bool step) {
  Kind out;
  const std::size_t n = s.time.size(), begin = step ? fewest_beside : 0;
  std::size_t end = n - fewest_beside + (step ? 1 : 0);
  // A drift needs time after the check it begins at.
  while (!step && !(s.time.back() > s.time[end - 1])) --end;
  const double places = static_cast<double>(end - begin);
  for (std::size_t first = begin; first < end; ++first) {
    const ChangeSums sums = step ? step_at(s, first) : drift_from(s, first);
    for (const Scale& scale : scales) {
      for (const double expected_K : {change_mean_K, -change_mean_K}) {
        out.weighed.push_back(with_change(s, sums, scale.factor, expected_K));
        out.logs.push_back(out.weighed.back().log_evidence + std::log(scale.weight * 0.25 * (1.0 - before_none) / places));
        out.place.push_back(first);
      }
    }
  }
  return out;
}

std::vector<double> weigh_none(const Series& s) {
  std::vector<double> logs;
  for (const Scale& scale : scales) logs.push_back(without_change(s, scale.factor).log_evidence + std::log(scale.weight * before_none));
  return logs;
}

double total(const std::vector<double>& logs, double against) {
  double sum = 0;
  for (const double log : logs) sum += std::exp(log - against);
  return sum;
}

void describe_change(DriftVerdict& out, const Kind& kind, double against, const std::vector<std::size_t>& index) {
  const double all = total(kind.logs, against);
  double mean = 0, square = 0;
  std::vector<double> by_place(index.size(), 0.0);
  for (std::size_t i = 0; i < kind.logs.size(); ++i) {
    const double share = std::exp(kind.logs[i] - against) / all;
    mean += share * kind.weighed[i].change;
    square += share * (kind.weighed[i].variance + kind.weighed[i].change * kind.weighed[i].change);
    by_place[kind.place[i]] += share;
  }
  out.change_K = mean;
  out.change_u_K = std::sqrt(std::max(0.0, square - mean * mean));
  out.begins = index[static_cast<std::size_t>(std::max_element(by_place.begin(), by_place.end()) - by_place.begin())];
}

}  // namespace

DriftVerdict judge_drift(std::span<const DriftPoint> points) {
  check(points);
  DriftVerdict out;
  if (points.size() < fewest || !(points.back().day > points.front().day)) return out;
  std::vector<std::size_t> index;
  const Series series = series_of(points, index, out.set_aside);
  if (index.size() < fewest) return out;
  const std::vector<double> none = weigh_none(series);
  const Kind drift = weigh(series, false), step = weigh(series, true);
  double against = -HUGE_VAL;
  for (const std::vector<double>* logs : {&none, &drift.logs, &step.logs})
    against = std::max(against, *std::max_element(logs->begin(), logs->end()));
  const double n = total(none, against), d = total(drift.logs, against), s = total(step.logs, against), all = n + d + s;
  out.chance_none = n / all;
  out.chance_drift = d / all;
  out.chance_step = s / all;
  describe_change(out, d >= s ? drift : step, against, index);
  if (out.chance_none >= firm_none) {
    out.change = DriftChange::none;
  } else if (out.chance_drift >= firm_change) {
    out.change = DriftChange::drift;
  } else if (out.chance_step >= firm_change) {
    out.change = DriftChange::step;
  }
  return out;
}

}  // namespace heatwork::metrology
