#include "desk/lab/furnace_chart_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "furnace_care/display_verdict.h"

namespace heatwork::desk {
namespace {

using furnace_care::ChartReason;
using furnace_care::RunBegins;

constexpr double ms_per_day = 86'400'000.0;

template <class E, std::size_t count>
std::string_view in(const std::array<std::string_view, count>& words, E choice) {
  return words.at(static_cast<std::size_t>(choice));
}

std::size_t last_run_first(const ChartedFurnace& charted) {
  return charted.chart.runs.back().first;
}

std::string amount_K(double value_K) {
  return fmt::format("{:.1f} K", value_K);
}

/// "+1.2 K ± 0.8 K"
std::string with_range(double value_K, double u_K) {
  return fmt::format("{} K ± {}", signed_K(value_K), amount_K(2 * u_K));
}

double error_now(const ChartedFurnace& charted) {
  return charted.chart.forecast ? charted.chart.forecast->offset_K : charted.checks.back().error_K;
}
double error_now_u(const ChartedFurnace& charted) {
  return charted.chart.forecast ? charted.chart.forecast->offset_u_K : charted.checks.back().uncertainty_K;
}

std::string since(const ChartedFurnace& charted) {
  return day_of_check(charted, last_run_first(charted));
}

std::string step_sentence(const ChartedFurnace& charted) {
  const metrology::DriftVerdict& verdict = charted.chart.verdict;
  const std::size_t after = *verdict.begins, before = std::max<std::size_t>(after, 1) - 1;
  return fmt::format("The display stepped by {} between {} and {}.", with_range(verdict.change_K, verdict.change_u_K),
                     day_of_check(charted, before), day_of_check(charted, after));
}

}  // namespace

std::string_view how_often_word(furnace_care::HowOften how_often) {
  return in(std::array<std::string_view, 3>{"monthly", "weekly", "each firing"}, how_often);
}
std::string_view run_begins_word(RunBegins begins) {
  return in(std::array<std::string_view, 4>{"first check", "adjusted", "correction changed", "repaired"}, begins);
}
std::string_view reason_word(ChartReason reason) {
  return in(std::array<std::string_view, 7>{"beyond limit", "alarm", "drift", "step", "no change", "too few checks", "undecided"}, reason);
}
std::string_view change_word(metrology::DriftChange change) {
  return in(std::array<std::string_view, 4>{"none", "drift", "step", "cannot tell"}, change);
}
std::string_view outcome_word(furnace_care::ChartOutcome outcome) {
  return in(std::array<std::string_view, 3>{"good", "not good", "cannot tell"}, outcome);
}

std::string signed_K(double value_K) {
  const std::string text = fmt::format("{:+.1f}", value_K);
  return text == "-0.0" ? "+0.0" : text;
}

std::string day_of_check(const ChartedFurnace& charted, std::size_t check) {
  return local_day(utc_ms(charted.at[check]), charted.zone);
}

std::string forecast_day(const ChartedFurnace& charted, const std::optional<double>& days) {
  if (!days || *days > furnace_care::furthest_forecast_days) return "";
  return local_day(utc_ms(charted.at.back()) + static_cast<std::int64_t>(std::llround(*days * ms_per_day)), charted.zone);
}

std::string how_often_in_words(const ChartedFurnace& charted) {
  if (!charted.chart.every_days) return "checked once";
  const double days = *charted.chart.every_days;
  if (days < 1.5) return fmt::format("checked about every {:.0f} h", std::max(1.0, 24 * days));
  return fmt::format("checked about every {:.0f} days", days);
}

std::string checks_in_words(const ChartedFurnace& charted) {
  const bool one_kind = std::all_of(charted.kind.begin(), charted.kind.end(), [&](const auto& kind) { return kind == charted.kind[0]; });
  const std::string of = one_kind ? charted.kind[0] : "temperature and thermocouple";
  if (charted.checks.size() == 1) return fmt::format("1 check of {}, on {}", of, day_of_check(charted, 0));
  return fmt::format("{} checks of {}, from {} to {}", charted.checks.size(), of, day_of_check(charted, 0),
                     day_of_check(charted, charted.checks.size() - 1));
}

std::string charts_in_words(const ChartedFurnace& charted) {
  const furnace_care::DriftChart& chart = charted.chart;
  return fmt::format("{}: sums with slack {:g} and limit {:g} ({} checks){}, target {} K ± {} from {}", how_often_in_words(charted),
                     chart.slack, chart.limit, how_often_word(chart.how_often),
                     chart.runs.back().head_start ? ", begun at half the limit" : "", signed_K(chart.runs.back().target_K),
                     amount_K(2 * chart.runs.back().target_u_K),
                     counted(static_cast<std::int64_t>(chart.runs.back().target_of), "check", "checks"));
}

std::vector<std::string> signals_in_words(const ChartedFurnace& charted) {
  const furnace_care::ChartAlarms& alarms = charted.chart.alarms;
  const std::string from = since(charted);
  return {alarms.sums ? fmt::format("The sums (CUSUM) alarm since {}.", day_of_check(charted, *alarms.sums))
                      : fmt::format("The sums (CUSUM) have not alarmed since {}.", from),
          alarms.trend ? fmt::format("The trend (EWMA) left its band on {}.", day_of_check(charted, *alarms.trend))
                       : fmt::format("The trend (EWMA) has stayed in its band since {}.", from),
          alarms.single ? fmt::format("A single check stands out alone on {}.", day_of_check(charted, *alarms.single))
                        : fmt::format("No single check stands out alone since {}.", from)};
}

std::string alarms_in_words(const ChartedFurnace& charted) {
  const furnace_care::DriftChart& chart = charted.chart;
  return fmt::format(
      "without a real change one in {:.0f} checks on average (one in {:.0f}, the target being known no better); a step of two standard "
      "deviations is found after {:.1f}",
      chart.average_run, chart.average_run_as_targeted, chart.average_run_to_two);
}

std::string limit_in_words(const ChartedFurnace& charted) {
  const std::string from = charted.limit_from == "chosen here" ? "assumed, where the lab sets none"
                           : charted.limit_from == "asked"     ? "as asked for"
                                                               : fmt::format("set by the lab, {}", charted.limit_from);
  return fmt::format("{:g} K either way ({})", charted.limit_K, from);
}

std::vector<std::string> runs_in_words(const ChartedFurnace& charted) {
  std::vector<std::string> out;
  for (const furnace_care::ChartRun& run : charted.chart.runs) {
    if (run.begins == RunBegins::first_check) continue;
    const std::string& repaired = charted.checks[run.first].after_repair;
    out.push_back(fmt::format(
        "{}: {}", day_of_check(charted, run.first),
        run.begins == RunBegins::repaired ? fmt::format("after repair, {}", repaired) : std::string(run_begins_word(run.begins))));
  }
  return out;
}

std::string chart_finding(const ChartedFurnace& charted) {
  const furnace_care::DriftChart& chart = charted.chart;
  const std::string now = with_range(error_now(charted), error_now_u(charted));
  const std::size_t of_run = chart.runs.back().count;
  switch (chart.reason) {
    case ChartReason::beyond_limit:
      return fmt::format("The display is off by {}, beyond the limit of {:g} K.", now, charted.limit_K);
    case ChartReason::step:
      return step_sentence(charted);
    case ChartReason::drift:
      return fmt::format("The display drifts: by {} from {} to {}.", with_range(chart.verdict.change_K, chart.verdict.change_u_K),
                         day_of_check(charted, *chart.verdict.begins), day_of_check(charted, charted.checks.size() - 1));
    case ChartReason::alarm:
      return fmt::format("The sums alarm since {}: something changed, but drift and step cannot be told apart yet.",
                         day_of_check(charted, *chart.alarms.sums));
    case ChartReason::no_change:
      return fmt::format("Neither drift nor step of a size that matters is seen in {} checks since {}; the display is off by {}.", of_run,
                         since(charted), now);
    case ChartReason::too_few:
      return fmt::format("Since {} there are too few checks to tell a drift ({}, wanted are 6); the display is off by {}.", since(charted),
                         of_run, now);
    case ChartReason::undecided:
      break;
  }
  return fmt::format("The {} checks since {} leave open whether the display changed; it is off by {}.", of_run, since(charted), now);
}

std::string chart_next(const ChartedFurnace& charted) {
  switch (charted.chart.reason) {
    case ChartReason::beyond_limit:
      return "Check once more, then adjust by the furnace maker's instruction or let the rehearsal allow for it; until then out of use.";
    case ChartReason::step:
      return "Look for what was done to the furnace between these days, then adjust, and check as left.";
    case ChartReason::drift:
      return "Plan the adjustment before the day it leaves its limit, look at sensor and muffle, and check as left.";
    case ChartReason::alarm:
      return "Check again within days, with the same wire or probe.";
    case ChartReason::no_change:
      return "Go on checking as often as now.";
    case ChartReason::too_few:
    case ChartReason::undecided:
      break;
  }
  return "Check again, sooner than usual.";
}

std::string forecast_in_words(const ChartedFurnace& charted) {
  const auto& forecast = charted.chart.forecast;
  if (!forecast && charted.checks.size() == 1) return "One check alone cannot tell on which day the limit will be passed.";
  // One bad check moves a trend only a little; it must not hide behind it.
  const furnace_care::ChartedCheck& last = charted.checks.back();
  if (furnace_care::against_limit(last.error_K, last.uncertainty_K, charted.limit_K) == furnace_care::AgainstLimit::outside)
    return fmt::format("The last check alone found {}, beyond {:g} K: check again, to tell a slip from a change.",
                       with_range(last.error_K, last.uncertainty_K), charted.limit_K);
  if (!forecast) return "No day can be told: the charts were begun anew with the last check.";
  const std::string trend = forecast_day(charted, forecast->days_to_limit), earliest = forecast_day(charted, forecast->earliest_days);
  const std::string slope =
      fmt::format("{:+.2f} K ± {:.2f} K", forecast->slope_K_per_day * days_per_month, 2 * forecast->slope_u_K_per_day * days_per_month);
  const double limit = charted.limit_K;
  if (std::abs(forecast->offset_K) >= limit) return fmt::format("It moves by {} a month and stands beyond {:g} K already.", slope, limit);
  if (trend.empty() && earliest.empty())
    return fmt::format("It moves by {} a month and stays within {:g} K for the next ten years.", slope, limit);
  if (trend.empty())
    return fmt::format("It moves by {} a month; the trend stays within {:g} K for ten years, the fast end of its range leaves it on {}.",
                       slope, limit, earliest);
  return fmt::format("It moves by {} a month and leaves {:g} K about {}, on {} at the earliest.", slope, limit, trend, earliest);
}

std::string row_remark(const ChartedFurnace& charted, std::size_t check) {
  const auto& aside = charted.chart.verdict.set_aside;
  std::string remark;
  for (const furnace_care::ChartRun& run : charted.chart.runs)
    if (run.first == check && run.begins != RunBegins::first_check) remark = run_begins_word(run.begins);
  if (charted.chart.rows[check].beyond) remark += remark.empty() ? "alarm" : ", alarm";
  if (charted.chart.rows[check].beyond_three) remark += remark.empty() ? "beyond 3" : ", beyond 3";
  if (std::find(aside.begin(), aside.end(), check) != aside.end()) remark += remark.empty() ? "set aside" : ", set aside";
  return remark.empty() ? "" : "  " + remark;
}

}  // namespace heatwork::desk
