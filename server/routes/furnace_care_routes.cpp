// What is due of furnaces, how often, done by whom; the charts of their checks; their reports.
#include <fmt/format.h>

#include <string>

#include "desk/errors.h"
#include "desk/lab/furnace_care_chart.h"
#include "desk/lab/furnace_care_due.h"
#include "desk/lab/furnace_care_report.h"
#include "desk/lab/furnace_upkeep.h"
#include "desk/lab/told_in.h"
#include "report/firing_picture.h"
#include "server/answer.h"
#include "server/body.h"
#include "server/kinds.h"
#include "server/routes/routes.h"
#include "trade/mistake.h"

namespace heatwork::server {
namespace {

Answer due_of_all(const Asked& asked) {
  const Query query(asked.query, {});
  return measured_answer(asked, desk::due_of_furnaces(asked.lab, {}));
}

Answer due_of_one(const Asked& asked) {
  const Query query(asked.query, {});
  return measured_answer(asked, desk::due_of_furnaces(asked.lab, {asked.path.at("name")}));
}

desk::UpkeepIntervalWords interval_of(const Body& body) {
  desk::UpkeepIntervalWords words;
  words.work = body.text("work");
  words.every_days = body.text_or("every_days", "");
  words.after_firings = body.text_or("after_firings", "");
  words.after_hours = body.text_or("after_hours", "");
  words.as_before = body.truth_or("as_before", false);
  words.from = body.whole_if("from", 1, most_versions).value_or(0);
  words.reason = body.text_or("reason", "");
  return words;
}

Answer set_interval(const Asked& asked) {
  const Body body("the body", asked.body,
                  {"work", "every_days", "after_firings", "after_hours", "by", "stated_in", "as_before", "from", "reason"});
  desk::UpkeepIntervalWords words = interval_of(body);
  words.furnace = asked.path.at("name");
  words.by = body.text_or("by", "");
  words.stated_in = body.text_or("stated_in", "");
  return refused_with_more([&] { return measured_answer(asked, desk::set_upkeep_interval(asked.lab, words)); }, nullptr);
}

Answer set_interval_of_every(const Asked& asked) {
  const Body body("the body", asked.body, {"work", "every_days", "after_firings", "after_hours", "as_before", "from", "reason"});
  return refused_with_more([&] { return measured_answer(asked, desk::set_upkeep_interval(asked.lab, interval_of(body))); }, nullptr);
}

Answer mark_done(const Asked& asked) {
  const Body body("the body", asked.body, {"work", "on", "from", "reason"});
  desk::UpkeepDoneWords words;
  words.furnace = asked.path.at("name");
  words.work = body.text("work");
  words.on = body.text_or("on", "");
  words.from = body.whole_if("from", 1, most_versions).value_or(0);
  words.reason = body.text_or("reason", "");
  return refused_with_more([&] { return measured_answer(asked, desk::mark_upkeep_done(asked.lab, words)); }, nullptr);
}

/// A link to a file says its language and units itself: no page stands between it and whoever reads it.
Language language_of(const Query& query, const Asked& asked) {
  const std::string said = query.text_or("language", "");
  if (said.empty()) return asked.language;
  if (said == "en") return Language::english;
  if (said == "de") return Language::german;
  throw desk::Failure(desk::ErrorWord::bad_value, fmt::format("The language is en or de, not \"{}\".", trade::for_message(said)));
}

report::TemperatureScale units_of(const Query& query, const Asked& asked) {
  const std::string said = query.text_or("units", "");
  if (said.empty()) return asked.units;
  if (said == "celsius") return report::TemperatureScale::celsius;
  if (said == "fahrenheit") return report::TemperatureScale::fahrenheit;
  throw desk::Failure(desk::ErrorWord::bad_value, fmt::format("Units are celsius or fahrenheit, not \"{}\".", trade::for_message(said)));
}

/// On paper a picture is light, whatever the screen is.
report::Shade shade_of(const Query& query) {
  const std::string said = query.text_or("shade", "");
  if (said.empty()) return report::Shade::as_asked;
  if (said == "light") return report::Shade::light;
  if (said == "dark") return report::Shade::dark;
  throw desk::Failure(desk::ErrorWord::bad_value, fmt::format("The shade is light or dark, not \"{}\".", trade::for_message(said)));
}

desk::ChartedFurnace charted(const Asked& asked, const Query& query) {
  return desk::charted_furnace(asked.lab, {asked.path.at("name"), query.text_or("of", ""), query.text_or("limit", "")});
}

Answer chart(const Asked& asked) {
  return measured_answer(asked, desk::answer_of(charted(asked, Query(asked.query, {"of", "limit"}))));
}

Answer chart_picture(const Asked& asked) {
  const Query query(asked.query, {"of", "limit", "language", "units", "shade"});
  report::PictureOptions options;
  options.scale = units_of(query, asked);
  options.shade = shade_of(query);
  Answer answer;
  answer.type = "image/svg+xml";
  answer.body = desk::picture_of(charted(asked, query), language_of(query, asked), options);
  return answer;
}

Answer report_of(const Asked& asked) {
  const Query query(asked.query, {});
  return measured_answer(asked, desk::answer_of(desk::report_of_furnace(asked.lab, asked.path.at("name"))));
}

/// The sheet to sign, as the PDF it is printed from.
Answer report_sheet(const Asked& asked) {
  const Query query(asked.query, {"paper", "language", "units"});
  Answer answer;
  answer.body =
      desk::report_sheet(asked.lab, asked.path.at("name"), query.text_or("paper", ""), {language_of(query, asked), units_of(query, asked)});
  answer.type = "application/pdf";
  answer.headers.emplace_back("Content-Disposition", "inline; filename=\"" + asked.path.at("name") + ".pdf\"");
  return answer;
}

}  // namespace

std::vector<Route> furnace_care_routes() {
  return {
      {"GET", "/api/furnaces/due", "due_of_furnaces", Needs::sign_in, due_of_all},
      {"PUT", "/api/furnaces/due", "set_interval_of_every_furnace", Needs::set_up, set_interval_of_every},
      {"GET", "/api/furnaces/{name}/due", "due_of_furnace", Needs::sign_in, due_of_one},
      {"PUT", "/api/furnaces/{name}/due", "set_interval_of_furnace", Needs::fire, set_interval},
      {"POST", "/api/furnaces/{name}/due/done", "mark_upkeep_done", Needs::fire, mark_done},
      {"GET", "/api/furnaces/{name}/chart", "chart_of_furnace", Needs::sign_in, chart},
      {"GET", "/api/furnaces/{name}/chart.svg", "chart_picture_of_furnace", Needs::sign_in, chart_picture},
      {"GET", "/api/furnaces/{name}/report", "report_of_furnace", Needs::sign_in, report_of},
      {"GET", "/api/furnaces/{name}/report.pdf", "report_sheet_of_furnace", Needs::sign_in, report_sheet},
  };
}

}  // namespace heatwork::server
