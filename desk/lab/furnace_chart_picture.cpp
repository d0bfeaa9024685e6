#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/files.h"
#include "desk/lab/furnace_care_chart.h"
#include "desk/lab/furnace_chart_words.h"
#include "desk/lab/local_time.h"
#include "desk/lab/told_in_units.h"
#include "desk/rehearse_files.h"
#include "report/drift_picture.h"
#include "report/raster.h"
#include "trade/sentences.h"

namespace heatwork::desk {
namespace {

constexpr double ms_per_day = 86'400'000.0;
constexpr int ticks_at_most = 10;

double day_number(std::int64_t at_ms) {
  return static_cast<double>(at_ms) / ms_per_day;
}

/// The first day of so many months after that of a day.
std::string month_after(const std::string& day, int months) {
  const int count = std::stoi(day.substr(0, 4)) * 12 + std::stoi(day.substr(5, 2)) - 1 + months;
  return fmt::format("{:04}-{:02}-01", count / 12, count % 12 + 1);
}

/// Whole months where they are enough to tell days apart, else whole weeks.
std::vector<report::DriftTick> ticks_between(double from, double to, const std::string& zone) {
  std::vector<report::DriftTick> ticks;
  const std::string first = local_day(static_cast<std::int64_t>(from * ms_per_day), zone);
  const auto add = [&](const std::string& day, const std::string& label) {
    const double at = day_number(day_begins_ms(day, zone));
    if (at >= from && at <= to) ticks.push_back({at, label});
    return at <= to;
  };
  if (to - from < 70) {
    const int step = std::max(1, static_cast<int>(std::ceil((to - from) / ticks_at_most)));
    for (std::string day = first; add(day, day); day = day_after(day, step)) continue;
    return ticks;
  }
  int step = 1;
  for (const int each : {1, 2, 3, 6, 12, 24})
    if (step = each; (to - from) / (days_per_month * each) <= ticks_at_most) break;
  // Ticks stand at round months: each quarter or half of a year at its own.
  std::string day = month_after(first, 0);
  while ((std::stoi(day.substr(5, 2)) - 1) % std::min(step, 12) != 0) day = month_after(day, 1);
  for (; add(day, day.substr(0, step >= 12 ? 4 : 7)); day = month_after(day, step)) continue;
  return ticks;
}

void draw_forecast(report::DriftPicture& picture, const ChartedFurnace& charted) {
  const auto& forecast = charted.chart.forecast;
  if (!forecast || charted.chart.outcome != furnace_care::ChartOutcome::not_good) return;
  const double last = charted.checks.back().day, first = charted.checks[charted.chart.runs.back().first].day;
  // No further than the record itself reaches back: beyond that a line would only stretch the picture.
  const double ahead = std::min(forecast->days_to_limit.value_or(HUGE_VAL), std::max(60.0, 0.5 * (last - first)));
  if (!(ahead > 0)) return;
  picture.forecast = {last, forecast->offset_K, last + ahead, forecast->offset_K + forecast->slope_K_per_day * ahead};
}

void mark_runs_and_alarm(report::DriftPicture& picture, const ChartedFurnace& charted, trade::Language language) {
  const auto said = [&](std::string_view english) { return trade::in_language(english, language); };
  for (const furnace_care::ChartRun& run : charted.chart.runs) {
    if (run.begins == furnace_care::RunBegins::first_check) continue;
    const std::string& repaired = charted.checks[run.first].after_repair;
    const std::string words = run.begins == furnace_care::RunBegins::repaired ? repaired : said(run_begins_word(run.begins));
    picture.marks.push_back({charted.checks[run.first].day, words, true});
  }
  const auto& alarm = charted.chart.alarms.sums;
  if (alarm) picture.marks.push_back({charted.checks[*alarm].day, said("the sums alarm"), false});
}

}  // namespace

std::string picture_of(const ChartedFurnace& charted, trade::Language language, const report::PictureOptions& options) {
  const auto said = [&](const std::string& english) { return told_in_units(options.scale, trade::in_language(english, language)); };
  const furnace_care::DriftChart& chart = charted.chart;
  report::DriftPicture picture;
  picture.title = said(fmt::format("Checks of furnace {}", charted.furnace));
  picture.setting = said(fmt::format("{}, {}: sums with limit {:g}; without a real change one alarm in {:.0f} checks on average.",
                                     checks_in_words(charted), how_often_in_words(charted), chart.limit, chart.average_run));
  picture.level = said(std::string(outcome_word(chart.outcome)));
  picture.sentence = said(chart_finding(charted));
  picture.notes = {said(forecast_in_words(charted)), said(chart_next(charted))};
  picture.limit_K = charted.limit_K;
  picture.sum_limit = chart.limit;
  for (std::size_t i = 0; i < charted.checks.size(); ++i) {
    const furnace_care::ChartRow& row = chart.rows[i];
    const auto& aside = chart.verdict.set_aside;
    picture.points.push_back({charted.checks[i].day, charted.checks[i].error_K, charted.checks[i].uncertainty_K, row.trend_K,
                              row.half_width_K, chart.runs[row.run].target_K, row.high, row.low,
                              std::find(aside.begin(), aside.end(), i) != aside.end()});
  }
  mark_runs_and_alarm(picture, charted, language);
  draw_forecast(picture, charted);
  const double to = picture.forecast ? picture.forecast->to_day : picture.points.back().day;
  picture.ticks = ticks_between(picture.points.front().day - 3, to + 3, charted.zone);
  return report::drift_picture(picture, report::Numbers(trade::words_of(language), options.scale), options);
}

void write_chart_picture(const std::string& path, const ChartedFurnace& charted, trade::Language language, report::TemperatureScale units) {
  const PictureForm form = picture_form(path);
  report::PictureOptions options;
  options.scale = units;
  if (form != PictureForm::svg) options.shade = report::Shade::light;
  const std::string svg = picture_of(charted, language, options);
  if (form == PictureForm::svg) return write_whole(path, svg);
  write_whole(path, report::raster(svg, form == PictureForm::png ? report::RasterKind::png : report::RasterKind::pdf));
}

}  // namespace heatwork::desk
