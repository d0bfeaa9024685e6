#include "furnace_care/drift.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <stdexcept>

#include "furnace_care/display_verdict.h"
#include "metrology/control_chart.h"

namespace heatwork::furnace_care {
namespace {

// Limits by how often is checked, and what a sound furnace does from check to check. Standing: assumed, chosen by run lengths.
constexpr double monthly_limit = 3, weekly_limit = 4, each_firing_limit = 5;
constexpr double process_sd_K = 1.5, slack = 0.5, trend_weight = 0.2, trend_limit = 2.962;
constexpr double monthly_from_days = 17, weekly_from_days = 2;
constexpr std::size_t target_at_most = 3;

double sigma_of(const ChartedCheck& check) {
  return std::hypot(check.uncertainty_K, process_sd_K);
}

/// What stood on the panel when a check was over.
std::optional<double> keyed_when_over(const ChartedCheck& check) {
  return check.keyed_after_K ? check.keyed_after_K : check.correction_keyed_K;
}

std::optional<RunBegins> begins_anew(const ChartedCheck& before, const ChartedCheck& now) {
  if (!now.after_repair.empty()) return RunBegins::repaired;
  if (now.as_left) return RunBegins::adjusted;
  const auto left = keyed_when_over(before);
  const bool changed_after = before.keyed_after_K && before.correction_keyed_K && *before.keyed_after_K != *before.correction_keyed_K;
  if (changed_after || (left && now.correction_keyed_K && *left != *now.correction_keyed_K)) return RunBegins::correction_changed;
  return std::nullopt;
}

void take_target(ChartRun& run, const std::vector<ChartedCheck>& checks) {
  double weights = 0, sum = 0;
  run.target_of = std::min(run.count, target_at_most);
  for (std::size_t i = run.first; i < run.first + run.target_of; ++i) {
    const double weight = 1 / (sigma_of(checks[i]) * sigma_of(checks[i]));
    weights += weight;
    sum += weight * checks[i].error_K;
  }
  run.target_K = sum / weights;
  run.target_u_K = std::sqrt(1 / weights);
}

std::vector<ChartRun> runs_of(const std::vector<ChartedCheck>& checks) {
  std::vector<ChartRun> runs;
  const auto begin = [&](std::size_t first, RunBegins begins) {
    runs.push_back({first, 0, begins, 0, 0, 0, begins != RunBegins::first_check});
  };
  // A record may itself begin after an adjustment or a repair.
  begin(0, !checks[0].after_repair.empty() ? RunBegins::repaired : checks[0].as_left ? RunBegins::adjusted : RunBegins::first_check);
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (i > 0) {
      if (const auto begins = begins_anew(checks[i - 1], checks[i])) begin(i, *begins);
    }
    ++runs.back().count;
  }
  for (ChartRun& run : runs) take_target(run, checks);
  return runs;
}

std::optional<double> median_gap(const std::vector<ChartedCheck>& checks, std::size_t from) {
  std::vector<double> gaps;
  for (std::size_t i = from + 1; i < checks.size(); ++i) gaps.push_back(checks[i].day - checks[i - 1].day);
  if (gaps.empty()) return std::nullopt;
  const auto middle = gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2);
  std::nth_element(gaps.begin(), middle, gaps.end());
  return *middle;
}

void take_setting(DriftChart& chart, const std::vector<ChartedCheck>& checks) {
  chart.every_days = median_gap(checks, chart.runs.back().first);
  if (!chart.every_days) chart.every_days = median_gap(checks, 0);
  const double every = chart.every_days.value_or(monthly_from_days);
  chart.how_often = every >= monthly_from_days ? HowOften::monthly : every >= weekly_from_days ? HowOften::weekly : HowOften::each_firing;
  chart.slack = slack;
  chart.limit = chart.how_often == HowOften::monthly  ? monthly_limit
                : chart.how_often == HowOften::weekly ? weekly_limit
                                                      : each_firing_limit;
}

/// The run length where the target itself is off by what its few checks leave: its mean over that, in steps of half a deviation.
double average_run_of(const metrology::ChartSetting& setting, double target_off) {
  double sum = 0, weights = 0;
  for (int step = -6; step <= 6; ++step) {
    const double z = 0.5 * step, weight = std::exp(-0.5 * z * z);
    sum += weight * metrology::average_run_length(setting, z * target_off);
    weights += weight;
  }
  return sum / weights;
}

void take_run_lengths(DriftChart& chart, const std::vector<ChartedCheck>& checks) {
  const ChartRun& run = chart.runs.back();
  const metrology::ChartSetting setting{
      metrology::ChartKind::cusum, chart.limit, chart.slack, trend_weight, run.head_start ? 0.5 * chart.limit : 0.0, true};
  chart.average_run = metrology::average_run_length(setting, 0);
  chart.average_run_to_two = metrology::average_run_length(setting, 2);
  chart.average_run_as_targeted = average_run_of(setting, run.target_u_K / sigma_of(checks[run.first]));
}

/// Charts one run into the rows; alarms are those of this run.
ChartAlarms chart_run(DriftChart& chart, const std::vector<ChartedCheck>& checks, std::size_t number) {
  const ChartRun& run = chart.runs[number];
  std::vector<double> standardised, errors;
  double squares = 0;
  for (std::size_t i = run.first; i < run.first + run.count; ++i) {
    standardised.push_back((checks[i].error_K - run.target_K) / sigma_of(checks[i]));
    errors.push_back(checks[i].error_K);
    squares += sigma_of(checks[i]) * sigma_of(checks[i]);
  }
  const double sigma = std::sqrt(squares / static_cast<double>(run.count));
  const auto sums = metrology::cusum_chart(standardised, 0, 1, chart.slack, chart.limit, run.head_start ? 0.5 * chart.limit : 0.0);
  const auto trend = metrology::ewma_chart(errors, run.target_K, sigma, trend_weight, trend_limit);
  const auto single = metrology::shewhart_chart(standardised, 0, 1);
  for (std::size_t i = 0; i < run.count; ++i)
    chart.rows.push_back({number, standardised[i], sums.high[i], sums.low[i], trend.value[i], trend.half_width[i],
                          std::max(sums.high[i], sums.low[i]) > chart.limit, std::abs(standardised[i]) > 3});
  const auto of_all = [&](const std::optional<std::size_t>& alarm) {
    return alarm ? std::optional<std::size_t>(run.first + *alarm - 1) : std::nullopt;
  };
  return {of_all(sums.first_alarm), of_all(trend.first_alarm), of_all(single.first_alarm), single.rule};
}

bool contains(const std::vector<std::size_t>& all, std::size_t one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// The verdict and the forecast of the last run, with indices of all checks.
void weigh_last_run(DriftChart& chart, const std::vector<ChartedCheck>& checks, double limit_K) {
  const std::size_t first = chart.runs.back().first;
  std::vector<metrology::DriftPoint> points;
  for (std::size_t i = first; i < checks.size(); ++i) points.push_back({checks[i].day, checks[i].error_K, checks[i].uncertainty_K});
  chart.verdict = metrology::judge_drift(points);
  if (points.size() < 2) return;
  // After a step what came before it says nothing of how the display moves now.
  const bool stepped = chart.verdict.change == metrology::DriftChange::step;
  std::vector<metrology::DriftPoint> taken;
  for (std::size_t i = stepped ? *chart.verdict.begins : 0; i < points.size(); ++i)
    if (!contains(chart.verdict.set_aside, i)) taken.push_back(points[i]);
  if (chart.verdict.begins) *chart.verdict.begins += first;
  for (std::size_t& aside : chart.verdict.set_aside) aside += first;
  chart.forecast = metrology::forecast_drift(taken, limit_K);
}

void judge(DriftChart& chart, const ChartedCheck& last, double limit_K) {
  using metrology::DriftChange;
  const auto say = [&](ChartOutcome outcome, ChartReason reason) { chart.outcome = outcome, chart.reason = reason; };
  // Beyond its limit is what the last check says, or, with more of them, the level behind them.
  const double level = chart.forecast ? chart.forecast->offset_K : last.error_K;
  const double level_u = chart.forecast ? chart.forecast->offset_u_K : last.uncertainty_K;
  if (against_limit(level, level_u, limit_K) == AgainstLimit::outside) return say(ChartOutcome::not_good, ChartReason::beyond_limit);
  if (chart.verdict.change == DriftChange::step) return say(ChartOutcome::not_good, ChartReason::step);
  if (chart.verdict.change == DriftChange::drift) return say(ChartOutcome::not_good, ChartReason::drift);
  if (chart.alarms.sums) return say(ChartOutcome::not_good, ChartReason::alarm);
  if (chart.verdict.change == DriftChange::none) return say(ChartOutcome::good, ChartReason::no_change);
  const bool weighed = chart.verdict.chance_none + chart.verdict.chance_drift + chart.verdict.chance_step > 0;
  say(ChartOutcome::cannot_tell, weighed ? ChartReason::undecided : ChartReason::too_few);
}

}  // namespace

DriftChart chart_checks(const std::vector<ChartedCheck>& checks, double limit_K) {
  if (checks.empty()) throw std::domain_error("There is no check to chart.");
  if (!(limit_K > 0 && std::isfinite(limit_K))) throw std::domain_error("The limit of the display error must be above 0 K.");
  for (std::size_t i = 1; i < checks.size(); ++i)
    if (!(checks[i].day >= checks[i - 1].day))
      throw std::domain_error(fmt::format("Check \"{}\" stands before \"{}\" though it came later; a chart needs them in order of time.",
                                          checks[i].name, checks[i - 1].name));
  DriftChart chart;
  chart.runs = runs_of(checks);
  take_setting(chart, checks);
  for (std::size_t run = 0; run < chart.runs.size(); ++run) chart.alarms = chart_run(chart, checks, run);
  take_run_lengths(chart, checks);
  weigh_last_run(chart, checks, limit_K);
  judge(chart, checks.back(), limit_K);
  return chart;
}

}  // namespace heatwork::furnace_care
