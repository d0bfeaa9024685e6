#include "desk/lab/furnace_care_chart.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <stdexcept>

#include "desk/errors.h"
#include "desk/lab/furnace_chart_words.h"
#include "desk/lab/furnace_checks.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "metrology/display_limits.h"
#include "quantity/read.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using furnace_care::ChartedCheck;

constexpr std::size_t rows_in_text = 24;

bool is_charted(trade::CheckOf of) {
  return of == trade::CheckOf::temperature || of == trade::CheckOf::thermocouple;
}

std::vector<std::string> kinds_asked(const std::string& of) {
  if (of.empty()) return {"temperature", "thermocouple"};
  const auto kind = trade::choice_of<trade::CheckOf>(of);
  if (!kind || !is_charted(*kind))
    throw Failure(ErrorWord::bad_value, fmt::format("There is no chart of \"{}\"; there are charts of: temperature, thermocouple.", of));
  return {of};
}

double limit_asked(const std::string& typed) {
  const auto read = quantity::read<quantity::TemperatureDifference>(typed);
  if (!read) throw Failure(ErrorWord::bad_value, fmt::format("The limit \"{}\": {}", typed, read.error()));
  const double limit_K = read->si();
  if (!(limit_K > 0 && limit_K <= metrology::beyond_any_error_K))
    throw Failure(ErrorWord::bad_value,
                  fmt::format("The limit \"{}\" must be above 0 K and at most {:g} K.", typed, metrology::beyond_any_error_K));
  return limit_K;
}

std::optional<double> kelvins(const trade::Maybe<quantity::TemperatureDifference>& value) {
  return value ? std::optional<double>(value->value.si()) : std::nullopt;
}

double day_of(const std::string& at) {
  return static_cast<double>(utc_ms(at)) / 86'400'000.0;
}

/// Why a check cannot be charted; "" where it can.
std::string not_chartable(const trade::Check& check) {
  if (check.at.empty()) return fmt::format("Check {} says no time.", check.name);
  if (!check.error) return fmt::format("Check {} tells no error of the display.", check.name);
  if (!check.standard_uncertainty || !(check.standard_uncertainty->value.si() > 0))
    return fmt::format("Check {} tells no uncertainty of its error.", check.name);
  return "";
}

void take(ChartedFurnace& out, const trade::Check& check) {
  if (std::string why = not_chartable(check); !why.empty()) {
    out.left_out.push_back({check.name, std::move(why)});
    return;
  }
  ChartedCheck charted;
  charted.name = check.name;
  charted.day = day_of(check.at);
  charted.error_K = check.error->value.si();
  charted.uncertainty_K = check.standard_uncertainty->value.si();
  charted.as_left = check.as_left && check.as_left->value;
  charted.after_repair = check.after_repair;
  charted.correction_keyed_K = kelvins(check.correction_keyed);
  charted.keyed_after_K = kelvins(check.keyed_after);
  out.checks.push_back(std::move(charted));
  out.at.push_back(check.at);
  out.kind.emplace_back(trade::choice_word(check.of.value));
  if (const auto limit = kelvins(check.limit); limit && *limit > 0 && out.limit_from != "asked") {
    out.limit_K = *limit;
    out.limit_from = fmt::format("check {}", check.name);
  }
}

Json number_or_null(const std::optional<double>& value) {
  return value ? Json(*value) : Json();
}
Json name_or_null(const ChartedFurnace& charted, const std::optional<std::size_t>& check) {
  return check ? Json(charted.checks[*check].name) : Json();
}

Json rows_as_json(const ChartedFurnace& charted) {
  JsonList rows;
  const auto& aside = charted.chart.verdict.set_aside;
  for (std::size_t i = 0; i < charted.checks.size(); ++i) {
    const ChartedCheck& check = charted.checks[i];
    const furnace_care::ChartRow& row = charted.chart.rows[i];
    rows.push_back(JsonObject{{"check", check.name},
                              {"at", charted.at[i]},
                              {"day", local_day(utc_ms(charted.at[i]), charted.zone)},
                              {"of", charted.kind[i]},
                              {"error_K", check.error_K},
                              {"standard_uncertainty_K", check.uncertainty_K},
                              {"run", static_cast<double>(row.run + 1)},
                              {"standardised", row.standardised},
                              {"sum_high", row.high},
                              {"sum_low", row.low},
                              {"trend_K", row.trend_K},
                              {"trend_half_width_K", row.half_width_K},
                              {"sum_beyond", row.beyond},
                              {"beyond_three_sigma", row.beyond_three},
                              {"set_aside", std::find(aside.begin(), aside.end(), i) != aside.end()}});
  }
  return rows;
}

Json runs_as_json(const ChartedFurnace& charted) {
  JsonList runs;
  for (const furnace_care::ChartRun& run : charted.chart.runs)
    runs.push_back(JsonObject{{"from", charted.checks[run.first].name},
                              {"day", local_day(utc_ms(charted.at[run.first]), charted.zone)},
                              {"checks", static_cast<double>(run.count)},
                              {"begins", run_begins_word(run.begins)},
                              {"repaired", text_or_null(charted.checks[run.first].after_repair)},
                              {"head_start", run.head_start},
                              {"target_K", run.target_K},
                              {"target_u_K", run.target_u_K},
                              {"target_of", static_cast<double>(run.target_of)}});
  return runs;
}

Json verdict_as_json(const ChartedFurnace& charted) {
  const metrology::DriftVerdict& verdict = charted.chart.verdict;
  const bool weighed = verdict.begins.has_value();
  return JsonObject{{"change", change_word(verdict.change)},
                    {"chance_none", weighed ? Json(verdict.chance_none) : Json()},
                    {"chance_drift", weighed ? Json(verdict.chance_drift) : Json()},
                    {"chance_step", weighed ? Json(verdict.chance_step) : Json()},
                    {"begins", name_or_null(charted, verdict.begins)},
                    {"change_K", weighed ? Json(verdict.change_K) : Json()},
                    {"change_u_K", weighed ? Json(verdict.change_u_K) : Json()}};
}

Json forecast_as_json(const ChartedFurnace& charted) {
  if (!charted.chart.forecast) return {};
  const metrology::DriftForecast& forecast = *charted.chart.forecast;
  const auto day = [&](const std::optional<double>& days) {
    const auto on = forecast_day(charted, days);
    return on.empty() ? Json() : Json(on);
  };
  return JsonObject{{"error_K", forecast.offset_K},
                    {"error_u_K", forecast.offset_u_K},
                    {"slope_K_per_month", forecast.slope_K_per_day * days_per_month},
                    {"slope_u_K_per_month", forecast.slope_u_K_per_day * days_per_month},
                    {"leaves_limit_on", day(forecast.days_to_limit)},
                    {"earliest_on", day(forecast.earliest_days)}};
}

std::string table_of(const ChartedFurnace& charted) {
  std::size_t width = 5;
  for (const ChartedCheck& check : charted.checks) width = std::max(width, check.name.size());
  width = std::min<std::size_t>(width, 34);
  std::string text = fmt::format("{:<{}}  {:<10}  {:>9}  {:>7}  {:>9}  {:>6}  {:>6}\n", "CHECK", width, "DAY", "ERROR", "U (K=1)", "TREND",
                                 "HIGHER", "LOWER");
  const std::size_t all = charted.checks.size(), from = all > rows_in_text ? all - rows_in_text : 0;
  for (std::size_t i = from; i < all; ++i) {
    const ChartedCheck& check = charted.checks[i];
    const furnace_care::ChartRow& row = charted.chart.rows[i];
    text += fmt::format("{:<{}}  {}  {:>7} K  {:>5.1f} K  {:>7} K  {:>6.2f}  {:>6.2f}{}\n", check.name.substr(0, width), width,
                        local_day(utc_ms(charted.at[i]), charted.zone), signed_K(check.error_K), check.uncertainty_K, signed_K(row.trend_K),
                        row.high, row.low, row_remark(charted, i));
  }
  if (from > 0) text += fmt::format("{} earlier checks are charted too; the answer as JSON tells them all.\n", from);
  return text;
}

std::string text_of(const ChartedFurnace& charted) {
  std::string text = care_line("Furnace", charted.furnace);
  text += care_line("Checks", checks_in_words(charted));
  text += care_line("Charts", charts_in_words(charted));
  text += care_line("Alarms", alarms_in_words(charted));
  for (const std::string& signal : signals_in_words(charted)) text += care_line("Signal", signal);
  text += care_line("Limit", limit_in_words(charted));
  for (const std::string& run : runs_in_words(charted)) text += care_line("Anew", run);
  text += "\n" + care_line(std::string(outcome_word(charted.chart.outcome)), chart_finding(charted));
  text += care_line("Forecast", forecast_in_words(charted));
  text += care_line("Next", chart_next(charted));
  for (const CheckLeftOut& left : charted.left_out) text += care_line("Left out", left.sentence);
  return text + "\n" + table_of(charted);
}

}  // namespace

ChartedFurnace charted_furnace(const AskedLab& asked, const ChartWords& words) {
  ChartedFurnace out;
  out.furnace = words.furnace;
  out.of = kinds_asked(words.of);
  out.limit_K = words.limit.empty() ? metrology::usual_display_limit_K : limit_asked(words.limit);
  out.limit_from = words.limit.empty() ? "chosen here" : "asked";
  const StorePlace place = place_of(asked);
  out.zone = place.zone;
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    for (const trade::Check& check : checks_of_furnace(store, words.furnace)) {
      const std::string kind(trade::choice_word(check.of.value));
      if (std::find(out.of.begin(), out.of.end(), kind) != out.of.end()) take(out, check);
    }
    if (out.checks.empty())
      throw Failure(
          ErrorWord::no_answer,
          fmt::format("No check of furnace {} can be charted: none that is kept tells an error of the display with its uncertainty.",
                      words.furnace));
    try {
      out.chart = furnace_care::chart_checks(out.checks, out.limit_K);
    } catch (const std::domain_error& refused) {
      throw Failure(ErrorWord::no_answer, refused.what());
    }
    return out;
  });
}

CareAnswer answer_of(const ChartedFurnace& charted) {
  const furnace_care::DriftChart& chart = charted.chart;
  JsonList of, left_out, signals;
  for (const std::string& signal : signals_in_words(charted)) signals.push_back(JsonObject{{"sentence", signal}});
  for (const std::string& kind : charted.of) of.push_back(kind);
  for (const CheckLeftOut& left : charted.left_out) left_out.push_back(JsonObject{{"check", left.name}, {"sentence", left.sentence}});
  JsonObject json{{"format", 1},
                  {"furnace", charted.furnace},
                  {"zone", charted.zone},
                  {"of", std::move(of)},
                  {"outcome", outcome_word(chart.outcome)},
                  {"finding", JsonObject{{"reason", reason_word(chart.reason)}, {"sentence", chart_finding(charted)}}},
                  {"outlook", JsonObject{{"sentence", forecast_in_words(charted)}}},
                  {"next", JsonObject{{"sentence", chart_next(charted)}}},
                  {"limit_K", charted.limit_K},
                  {"limit_from", charted.limit_from},
                  {"how_often", how_often_word(chart.how_often)},
                  {"every_days", number_or_null(chart.every_days)},
                  {"cusum", JsonObject{{"k", chart.slack}, {"h", chart.limit}, {"first_alarm", name_or_null(charted, chart.alarms.sums)}}},
                  {"ewma", JsonObject{{"lambda", 0.2}, {"limit", 2.962}, {"first_alarm", name_or_null(charted, chart.alarms.trend)}}},
                  {"shewhart", JsonObject{{"first_alarm", name_or_null(charted, chart.alarms.single)},
                                          {"rule", chart.alarms.rule ? Json(static_cast<double>(*chart.alarms.rule)) : Json()}}},
                  {"signals", std::move(signals)},
                  {"average_run", chart.average_run},
                  {"average_run_as_targeted", chart.average_run_as_targeted},
                  {"average_run_to_two_sigma", chart.average_run_to_two},
                  {"runs", runs_as_json(charted)},
                  {"verdict", verdict_as_json(charted)},
                  {"forecast", forecast_as_json(charted)},
                  {"checks", rows_as_json(charted)},
                  {"left_out", std::move(left_out)}};
  return {text_of(charted), std::move(json), chart.outcome == furnace_care::ChartOutcome::not_good};
}

}  // namespace heatwork::desk
