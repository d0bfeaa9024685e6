#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/language.h"
#include "cli/verbs.h"
#include "desk/lab/furnace_care_due.h"
#include "desk/lab/furnace_care_report.h"
#include "desk/lab/furnace_upkeep.h"

namespace heatwork::cli {
namespace {

struct DueRequest {
  desk::AskedLab lab;
  desk::FurnaceDueWords words;
  bool json = false;
};

struct IntervalRequest {
  desk::AskedLab lab;
  desk::UpkeepIntervalWords words;
  bool json = false;
};

struct DoneRequest {
  desk::AskedLab lab;
  desk::UpkeepDoneWords words;
  bool json = false;
};

struct ReportRequest {
  desk::AskedLab lab;
  std::string furnace, sheet, paper, language;
  bool json = false;
};

std::string what_is_wrong(const ReportRequest& request) {
  if (request.paper != "" && request.paper != "a4" && request.paper != "letter")
    return "--paper is \"" + request.paper + "\", but must be a4 or letter";
  if (!request.paper.empty() && request.sheet.empty()) return "--paper goes with --sheet";
  return wrong_language(request.language);
}

int answer(const ReportRequest& request) {
  if (!request.sheet.empty()) desk::check_sheet_name(request.sheet);
  const desk::FurnaceReport found = desk::report_of_furnace(request.lab, request.furnace);
  if (!request.sheet.empty())
    desk::write_report_sheet(request.sheet, found, request.paper == "letter" ? report::Paper::letter : report::Paper::a4,
                             {language_asked(request.language, request.lab), units_asked(request.lab)});
  return show_measured(
      request.lab, [&] { return desk::answer_of(found); }, request.json);
}

void add_interval(Verb& check) {
  Verb verb = check.verb("interval", "Set how often a work is due, as the furnace maker says or the lab does",
                         "furnace check interval \"vacuum test\" --furnace corner --every-days 14\n"
                         "  heatwork furnace check interval muffle --furnace corner --after-hours 800 --by \"furnace maker\" \\\n"
                         "    --stated-in \"instructions for use, page 31\"");
  const auto request = std::make_shared<IntervalRequest>();
  verb.value("WORK", request->words.work, "as \"furnace check due\" names it, or one of the lab's own");
  verb.option("--furnace", "NAME", request->words.furnace, "one furnace; else every one whose own file says nothing of it");
  verb.option("--every-days", "NUMBER", request->words.every_days, "again after so many days");
  verb.option("--after-firings", "NUMBER", request->words.after_firings, "or after so many firings");
  verb.option("--after-hours", "NUMBER", request->words.after_hours, "or after so many hours of firings, together");
  verb.option("--by", "WORDS", request->words.by, "who says so: \"furnace maker\", or lab (else this)");
  verb.option("--stated-in", "TEXT", request->words.stated_in, "where the furnace maker says so");
  verb.flag("--as-before", request->words.as_before, "take the interval out again");
  verb.reason(request->words.reason);
  verb.store(request->lab);
  verb.json(request->json);
  verb.does([request] {
    return show_measured(
        request->lab, [&] { return desk::set_upkeep_interval(request->lab, request->words); }, request->json);
  });
}

void add_done(Verb& check) {
  Verb verb = check.verb("done", "Mark a work as done that no check and no firing tells of",
                         "furnace check done corner \"pump service\" --on 2026-11-20");
  const auto request = std::make_shared<DoneRequest>();
  verb.value("FURNACE", request->words.furnace, "the furnace");
  verb.value("WORK", request->words.work, "as \"furnace check due\" names it");
  verb.option("--on", "DAY", request->words.on, "the day it was done; else today");
  verb.reason(request->words.reason);
  verb.store(request->lab);
  verb.json(request->json);
  verb.does([request] {
    return show_measured(
        request->lab, [&] { return desk::mark_upkeep_done(request->lab, request->words); }, request->json);
  });
}

}  // namespace

void add_furnace_dues(Verb& check) {
  Verb due = check.verb("due", "What is due for each furnace, why, and who says how often", "furnace check due corner");
  const auto request = std::make_shared<DueRequest>();
  due.value("FURNACE", request->words.furnace, "one furnace; else every one that is kept", Need::optional);
  due.store(request->lab);
  due.json(request->json);
  due.does([request] {
    return show_measured(
        request->lab, [&] { return desk::due_of_furnaces(request->lab, request->words); }, request->json);
  });
  add_interval(check);
  add_done(check);
}

void add_furnace_reports(Verb& check) {
  Verb verb = check.verb("report", "Whether a furnace is qualified: as found, as left, what is open",
                         "furnace check report corner --sheet corner.pdf");
  const auto request = std::make_shared<ReportRequest>();
  verb.value("FURNACE", request->furnace, "the furnace");
  verb.option("--sheet", "FILE", request->sheet, "the report as a sheet to sign, FILE.pdf");
  verb.option("--paper", "PAPER", request->paper, "with --sheet: a4 (else this) or letter");
  verb.option("--language", "LANGUAGE", request->language, "en or de, of the sheet; else the setting");
  verb.store(request->lab);
  verb.json(request->json);
  verb.does([request] { return answer(*request); }, [request] { return what_is_wrong(*request); });
}

}  // namespace heatwork::cli
