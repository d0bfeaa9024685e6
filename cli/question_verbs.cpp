#include <limits>
#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/questions.h"

namespace heatwork::cli {
namespace {

struct QuestionRequest {
  desk::AskedLab lab;
  std::string name;
  int page = 1;
  bool json = false;
};

void shared(Verb& verb, QuestionRequest& request) {
  verb.page(request.page);
  verb.store(request.lab);
  verb.json(request.json);
}

void add_lot_questions(Verb& group) {
  Verb pieces = group.verb("pieces", "Which pieces met this lot, each once, with first and last time", "lot pieces jar-31");
  const auto request = std::make_shared<QuestionRequest>();
  pieces.value("LOT", request->name, "the lot");
  shared(pieces, *request);
  pieces.does([request] { return show(desk::pieces_of_lot(request->lab, request->name, request->page), request->json); });
}

void add_furnace_questions(Verb& group) {
  struct Days : QuestionRequest {
    std::string from, to;
  };
  Verb pieces = group.verb("pieces", "Which pieces were fired in this furnace", "furnace pieces corner --from 2026-11-01 --to 2026-11-30");
  const auto asked = std::make_shared<Days>();
  pieces.value("FURNACE", asked->name, "the furnace");
  pieces.option("--from", "DAY", asked->from, "first day, in the lab's zone; else from the beginning");
  pieces.option("--to", "DAY", asked->to, "last day, counted in; else to the end");
  shared(pieces, *asked);
  pieces.does([asked] {
    return show(desk::pieces_of_furnace(asked->lab, {asked->name, asked->from, asked->to, asked->page}), asked->json);
  });

  struct Since : QuestionRequest {
    std::string of = "temperature";
  };
  Verb since =
      group.verb("since-good-check", "Which pieces were fired since the furnace was last found good", "furnace since-good-check corner");
  const auto request = std::make_shared<Since>();
  since.value("FURNACE", request->name, "the furnace");
  since.option("--of", "CHECK", request->of, "temperature (else this), thermocouple, vacuum, heating ...");
  shared(since, *request);
  since.does(
      [request] { return show(desk::pieces_since_good_check(request->lab, request->name, request->of, request->page), request->json); });
}

void add_program_questions(Verb& group) {
  Verb pieces =
      group.verb("pieces", "Which pieces were fired under this program", "program pieces dentine@3\n  heatwork program pieces dentine");
  const auto request = std::make_shared<QuestionRequest>();
  pieces.value("PROGRAM", request->name, "NAME@VERSION, or NAME for every version");
  shared(pieces, *request);
  pieces.does([request] { return show(desk::pieces_of_program(request->lab, request->name, request->page), request->json); });
}

}  // namespace

void add_questions(trade::Noun noun, Verb& group) {
  if (noun == trade::Noun::lot) add_lot_questions(group);
  if (noun == trade::Noun::furnace) add_furnace_questions(group);
  if (noun == trade::Noun::program) add_program_questions(group);
}

}  // namespace heatwork::cli
