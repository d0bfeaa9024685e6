#include "metrology/control_chart.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "metrology/range.h"

namespace heatwork::metrology {
namespace {

void check_values(std::span<const double> values, double target, double sigma) {
  if (!(sigma > 0.0 && std::isfinite(sigma))) throw std::domain_error("Sigma must be above 0.");
  if (!std::isfinite(target)) throw std::domain_error("The target must be a finite number.");
  if (!std::all_of(values.begin(), values.end(), [](double value) { return std::isfinite(value); }))
    throw std::domain_error("A value is not a finite number.");
}

/// Whether at least `of` of the last `among` standardised values up to `last` lie beyond a limit on one side.
bool beyond(const std::vector<double>& u, std::size_t last, std::size_t of, std::size_t among, double limit) {
  for (const double side : {1.0, -1.0}) {
    if (!(side * u[last] > limit)) continue;  // the point that completes a rule lies beyond itself
    std::size_t counted = 0;
    for (std::size_t back = 0; back < among && back <= last; ++back) counted += side * u[last - back] > limit ? 1 : 0;
    if (counted >= of) return true;
  }
  return false;
}

// Variances a month of the random walks of level and slope. Standing: assumed. source: chosen-here
constexpr double level_variance_K2_per_month = 0.5;
constexpr double slope_variance_per_month = 0.05 * 0.05;
constexpr double days_per_month = 30.4375;
constexpr double normal_95 = 1.959963985;

/// Level and slope in months with their covariance.
struct State {
  double level, slope, ll, ls, ss;
};

void pass(State& state, double months) {
  state.level += months * state.slope;
  state.ll += 2.0 * months * state.ls + months * months * state.ss + level_variance_K2_per_month * months;
  state.ls += months * state.ss;
  state.ss += slope_variance_per_month * months;
}

void learn(State& state, double offset_K, double variance) {
  const double whole = state.ll + variance, level_gain = state.ll / whole, slope_gain = state.ls / whole, miss = offset_K - state.level;
  state.level += level_gain * miss;
  state.slope += slope_gain * miss;
  state.ss -= slope_gain * state.ls;
  state.ls -= level_gain * state.ls;
  state.ll -= level_gain * state.ll;
}

std::optional<double> months_to(double level, double slope, double limit_K) {
  if (std::abs(level) >= limit_K) return 0.0;
  if (slope == 0.0) return std::nullopt;
  return ((slope > 0.0 ? limit_K : -limit_K) - level) / slope;
}

}  // namespace

Cusum cusum_chart(std::span<const double> values, double target, double sigma, double slack, double limit, double head_start) {
  check_values(values, target, sigma);
  require_within(slack, 0.0, 100.0, "The slack k");
  if (!(limit > 0.0 && std::isfinite(limit))) throw std::domain_error("The limit h must be above 0.");
  require_within(head_start, 0.0, limit, "The head start");
  Cusum out;
  double high = head_start, low = head_start;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double u = (values[i] - target) / sigma;
    high = std::max(0.0, high + u - slack);
    low = std::max(0.0, low - u - slack);
    out.high.push_back(high);
    out.low.push_back(low);
    if (!out.first_alarm && std::max(high, low) > limit) out.first_alarm = i + 1;
  }
  return out;
}

Ewma ewma_chart(std::span<const double> values, double target, double sigma, double weight, double limit) {
  check_values(values, target, sigma);
  if (!(weight > 0.0 && weight <= 1.0)) throw std::domain_error("The weight lambda must be above 0 and at most 1.");
  if (!(limit > 0.0 && std::isfinite(limit))) throw std::domain_error("The limit L must be above 0.");
  Ewma out;
  double z = target, forgotten = 1.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    z = weight * values[i] + (1.0 - weight) * z;
    forgotten *= (1.0 - weight) * (1.0 - weight);
    out.value.push_back(z);
    out.half_width.push_back(limit * sigma * std::sqrt(weight / (2.0 - weight) * (1.0 - forgotten)));
    if (!out.first_alarm && std::abs(z - target) > out.half_width.back()) out.first_alarm = i + 1;
  }
  return out;
}

Shewhart shewhart_chart(std::span<const double> values, double target, double sigma) {
  check_values(values, target, sigma);
  std::vector<double> u;
  for (const double value : values) u.push_back((value - target) / sigma);
  struct Rule {
    std::size_t of, among;
    double limit;
  };
  constexpr std::array<Rule, 4> rules = {{{1, 1, 3.0}, {2, 3, 2.0}, {4, 5, 1.0}, {8, 8, 0.0}}};
  Shewhart out;
  for (std::size_t i = 0; i < u.size(); ++i) {
    for (std::size_t rule = 0; rule < rules.size(); ++rule) {
      if (!beyond(u, i, rules[rule].of, rules[rule].among, rules[rule].limit)) continue;
      if (rule == 0 && !out.beyond_three_sigma) out.beyond_three_sigma = i + 1;
      if (!out.first_alarm) {
        out.first_alarm = i + 1;
        out.rule = static_cast<int>(rule) + 1;
      }
    }
  }
  return out;
}

DriftForecast forecast_drift(std::span<const DriftPoint> points, double limit_K) {
  if (points.size() < 2) throw std::domain_error("A forecast needs at least 2 checks.");
  if (!(limit_K > 0.0 && std::isfinite(limit_K))) throw std::domain_error("The limit of the offset must be above 0 K.");
  State state{0.0, 0.0, 1e4, 0.0, 1.0};
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!(points[i].uncertainty_K > 0.0 && std::isfinite(points[i].offset_K)))
      throw std::domain_error("A check needs a finite offset and an uncertainty above 0 K.");
    if (i > 0) {
      if (!(points[i].day >= points[i - 1].day)) throw std::domain_error("The days of the checks must not fall: the clock went back.");
      pass(state, (points[i].day - points[i - 1].day) / days_per_month);
    }
    learn(state, points[i].offset_K, points[i].uncertainty_K * points[i].uncertainty_K);
  }
  DriftForecast out{};
  out.offset_K = state.level;
  out.slope_K_per_day = state.slope / days_per_month;
  out.offset_u_K = std::sqrt(state.ll);
  out.slope_u_K_per_day = std::sqrt(state.ss) / days_per_month;
  const auto days = [&](const std::optional<double>& months) {
    return months ? std::optional<double>(*months * days_per_month) : std::nullopt;
  };
  out.days_to_limit = days(months_to(state.level, state.slope, limit_K));
  const double reach = normal_95 * std::sqrt(state.ss);
  const auto up = months_to(state.level, std::max(state.slope + reach, 0.0), limit_K),
             down = months_to(state.level, std::min(state.slope - reach, 0.0), limit_K);
  if (up || down) out.earliest_days = days(std::min(up.value_or(HUGE_VAL), down.value_or(HUGE_VAL)));
  return out;
}

double uncertainty_after_K(double uncertainty_K, double days) {
  if (!(uncertainty_K >= 0.0 && std::isfinite(uncertainty_K))) throw std::domain_error("An uncertainty must be 0 K or more.");
  if (!(days >= 0.0 && std::isfinite(days))) throw std::domain_error("The days since a check must be 0 or more.");
  const double months = days / days_per_month;
  const double walked = level_variance_K2_per_month * months + slope_variance_per_month * months * months * months / 3.0;
  return std::sqrt(uncertainty_K * uncertainty_K + walked);
}

}  // namespace heatwork::metrology
