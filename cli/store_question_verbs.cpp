#include <limits>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/store_questions.h"

namespace heatwork::cli {
namespace {

void add_due(Verb& store) {
  struct Request {
    desk::AskedLab lab;
    desk::DueWords words;
    bool json = false;
  };
  Verb due = store.verb("due", "What falls due: furnaces, lots, references, checks, cases", "store due --within \"30 days\"");
  const auto request = std::make_shared<Request>();
  due.option("--until", "DAY", request->words.until, "last day looked at, 2026-12-31; else all");
  due.option("--within", "DAYS", request->words.within, "\"30 days\" from today");
  due.page(request->words.page);
  due.store(request->lab);
  due.json(request->json);
  due.does(
      [request] { return show(desk::due_in_store(request->lab, request->words), request->json); },
      [request] { return !request->words.until.empty() && !request->words.within.empty() ? "give --until or --within, not both" : ""; });
}

void add_trail(Verb& store) {
  struct Request {
    desk::AskedLab lab;
    desk::TrailWords words;
    bool json = false;
  };
  Verb trail = store.verb("trail", "Every change there ever was: who, when, what, why", "store trail program dentine --newest-first");
  const auto request = std::make_shared<Request>();
  trail.value("KIND", request->words.kind, "program, furnace, firing, bench-step ...", Need::optional);
  trail.value("NAME", request->words.name, "one of them", Need::optional);
  trail.number("--from", "N", request->words.from, 1, std::numeric_limits<int>::max(), "entry to begin with");
  trail.flag("--newest-first", request->words.newest_first, "the newest entry first");
  trail.page(request->words.page);
  trail.store(request->lab);
  trail.json(request->json);
  trail.does([request] { return show(desk::trail_of_store(request->lab, request->words), request->json); });
}

}  // namespace

void add_store_questions(Verb& store) {
  add_due(store);
  add_trail(store);
}

}  // namespace heatwork::cli
