#include "desk/lab/furnace_care_report.h"

#include <fmt/format.h>

#include "desk/lab/furnace_report_words.h"
#include "desk/lab/local_time.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckCame;
using furnace_care::QualificationLine;
using furnace_care::QualifyingCheck;
using furnace_care::Upkeep;

QualifyingCheck qualifying(const trade::Check& check, Upkeep work, int day) {
  QualifyingCheck out;
  out.name = check.name;
  out.work = work;
  out.day = day;
  out.came = trade::is_undecided(check) ? CheckCame::cannot_tell : check.good ? CheckCame::good : CheckCame::not_good;
  out.as_left = check.as_left && check.as_left->value;
  out.out_of_use = check.decision && check.decision->value == trade::CheckDecision::out_of_use;
  return out;
}

bool qualifies(Upkeep work) {
  return work == Upkeep::temperature || work == Upkeep::vacuum || work == Upkeep::heating || work == Upkeep::chamber_map;
}

void take_checks(FurnaceReport& report) {
  for (std::size_t i = 0; i < report.kept.checks.size(); ++i) {
    const trade::Check& check = report.kept.checks[i];
    if (check.at.empty()) continue;
    for (const Upkeep work : works_of(check.of.value)) {
      if (!qualifies(work)) continue;
      report.checks.push_back(qualifying(check, work, furnace_care::day_number(day_of(report, check)).value_or(0)));
      report.of_check.push_back(i);
    }
  }
}

/// What stands between commas, each to be said in the reader's language.
Json sentences_of_parts(const std::string& text) {
  JsonList parts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(", ", at), text.size());
    parts.push_back(JsonObject{{"sentence", text.substr(at, comma - at)}});
    at = comma + 2;
  }
  return parts;
}

Json check_as_json(const FurnaceReport& report, const std::optional<std::size_t>& index) {
  if (!index) return {};
  const trade::Check& check = kept_check(report, *index);
  return JsonObject{{"check", check.name},
                    {"on", day_of(report, check)},
                    {"of", std::string(trade::choice_word(check.of.value))},
                    {"came", came_in_words(check)},
                    {"found", found_in_words(check)},
                    {"found_parts", sentences_of_parts(found_in_words(check))},
                    {"limit_K", check.limit ? Json(check.limit->value.si()) : Json()},
                    {"limit_by", check.limit ? Json("lab") : Json()},
                    {"decision", check.decision ? Json(std::string(trade::choice_word(check.decision->value))) : Json()},
                    {"correction_keyed_K", check.correction_keyed ? Json(check.correction_keyed->value.si()) : Json()},
                    {"keyed_after_K", check.keyed_after ? Json(check.keyed_after->value.si()) : Json()},
                    {"reference", check.reference ? Json(check.reference->value) : Json()},
                    {"method", text_or_null(check.method)},
                    {"by", text_or_null(check.person)}};
}

Json lines_as_json(const FurnaceReport& report) {
  JsonList lines;
  for (const QualificationLine& line : report.qualification.lines)
    lines.push_back(JsonObject{{"work", std::string(word(line.work))},
                               {"wanted", line.wanted},
                               {"state", std::string(state_word(line.state))},
                               {"as_found", check_as_json(report, line.as_found)},
                               {"as_left", check_as_json(report, line.as_left)}});
  return lines;
}

Json reopenings_as_json(const FurnaceReport& report) {
  JsonList all;
  for (const furnace_care::Reopening& each : report.kept.reopenings)
    all.push_back(JsonObject{{"on", furnace_care::day_text(each.day)},
                             {"what", std::string(word(each.what))},
                             {"words", each.words},
                             {"reason", JsonObject{{"sentence", each.words}}},
                             {"by", each.by}});
  return all;
}

std::string line_in_words(const FurnaceReport& report, const QualificationLine& line) {
  std::string text = fmt::format("{}: {}", word(line.work), state_word(line.state));
  const auto also = [&](const char* which, const std::optional<std::size_t>& index) {
    if (!index) return;
    const trade::Check& check = kept_check(report, *index);
    const std::string limit = limit_of_check(check);
    text += fmt::format("; {} on {}: {}, {}{} ({})", which, day_of(report, check), came_in_words(check), found_in_words(check),
                        limit.empty() ? "" : ", limit " + limit, check.name);
  };
  also("as found", line.as_found);
  also("as left", line.as_left);
  return text;
}

}  // namespace

FurnaceReport report_of_furnace(const AskedLab& asked, const std::string& furnace, const Clock& clock) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    FurnaceReport report;
    report.zone = place.zone;
    report.today = local_day(clock.now_ms(), place.zone);
    records::Store store = opened(place, Reading::only);
    report.kept = furnace_kept(store, place, furnace, report.today);
    take_checks(report);
    report.qualification = furnace_care::qualification_of(report.checks, report.kept.reopenings, report.kept.specimens);
    return report;
  });
}

CareAnswer answer_of(const FurnaceReport& report) {
  const furnace_care::Qualification& found = report.qualification;
  std::string text = care_line("Furnace", fmt::format("{}, version {}", report.kept.furnace.name, report.kept.version));
  text += care_line("Today", fmt::format("{} in the zone {}", report.today, report.zone));
  text += "\n" + care_line("Result", fmt::format("{}: {}", word(found.outcome), found.sentence));
  text += care_line("Next", found.next) + "\n";
  for (const QualificationLine& line : found.lines) text += care_line("", line_in_words(report, line));
  text += care_line("Specimens", fmt::format("{} as wanted, {} not, of {} wanted", found.specimens_as_wanted, found.specimens_not,
                                             furnace_care::specimens_wanted));
  for (const furnace_care::Reopening& each : report.kept.reopenings)
    text += care_line("Changed", fmt::format("{}: {} ({})", furnace_care::day_text(each.day), each.words, each.by));
  JsonObject installed;
  for (const auto& [name, value] : installed_in_words(report.kept.furnace)) installed.push_back({name, value});
  JsonObject json{{"format", 1},
                  {"furnace", report.kept.furnace.name},
                  {"label", report.kept.furnace.label},
                  {"version", report.kept.version},
                  {"today", report.today},
                  {"zone", report.zone},
                  {"outcome", std::string(word(found.outcome))},
                  {"finding", JsonObject{{"sentence", found.sentence}}},
                  {"next", JsonObject{{"sentence", found.next}}},
                  {"out_of_use_by", found.tagged_by ? Json(kept_check(report, *found.tagged_by).name) : Json()},
                  {"installed", std::move(installed)},
                  {"works", lines_as_json(report)},
                  {"specimens", JsonObject{{"wanted", static_cast<double>(furnace_care::specimens_wanted)},
                                           {"as_wanted", static_cast<double>(found.specimens_as_wanted)},
                                           {"not_as_wanted", static_cast<double>(found.specimens_not)}}},
                  {"changes", reopenings_as_json(report)}};
  const bool wrong = found.outcome == furnace_care::Qualified::no || found.outcome == furnace_care::Qualified::out_of_use;
  return {text, std::move(json), wrong};
}

}  // namespace heatwork::desk
