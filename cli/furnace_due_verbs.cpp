#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/language.h"
#include "cli/verbs.h"
#include "desk/lab/furnace_care_due.h"
#include "desk/lab/furnace_care_report.h"

namespace heatwork::cli {
namespace {

struct DueRequest {
  desk::AskedLab lab;
  desk::FurnaceDueWords words;
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
                             language_asked(request.language, request.lab));
  return show(desk::answer_of(found), request.json);
}

}  // namespace

void add_furnace_dues(Verb& check) {
  Verb due = check.verb("due", "What is due for each furnace, why, and who says how often", "furnace check due corner");
  const auto request = std::make_shared<DueRequest>();
  due.value("FURNACE", request->words.furnace, "one furnace; else every one that is kept", Need::optional);
  due.store(request->lab);
  due.json(request->json);
  due.does([request] { return show(desk::due_of_furnaces(request->lab, request->words), request->json); });
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
