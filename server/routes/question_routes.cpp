#include <fmt/format.h>

#include <limits>

#include "desk/lab/piece_history.h"
#include "desk/lab/questions.h"
#include "desk/lab/store_care.h"
#include "desk/lab/store_questions.h"
#include "desk/lab/told_in.h"
#include "server/body.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer piece_history(const Asked& asked) {
  return answer_of(desk::history_of_piece(asked.lab, asked.path.at("name")));
}

Answer due(const Asked& asked) {
  const Query query(asked.query, {"until", "within", "page"});
  const auto due = desk::due_in_store(asked.lab, {query.text_or("until", ""), query.text_or("within", ""), query.page()});
  return answer_of(desk::told_in(asked.language, due.json));
}

Answer trail(const Asked& asked) {
  const Query query(asked.query, {"kind", "name", "from", "newest_first", "page"});
  return answer_of(desk::trail_of_store(
      asked.lab, {query.text_or("kind", ""), query.text_or("name", ""), query.whole_or("from", 1, 1, std::numeric_limits<int>::max()),
                  query.truth_or("newest_first", false), query.page()}));
}

Answer pieces_of_lot(const Asked& asked) {
  return answer_of(desk::pieces_of_lot(asked.lab, asked.path.at("name"), Query(asked.query, {"page"}).page()));
}

Answer pieces_of_furnace(const Asked& asked) {
  const Query query(asked.query, {"from", "to", "page"});
  return answer_of(
      desk::pieces_of_furnace(asked.lab, {asked.path.at("name"), query.text_or("from", ""), query.text_or("to", ""), query.page()}));
}

Answer since_good_check(const Asked& asked) {
  const Query query(asked.query, {"of", "page"});
  return answer_of(desk::pieces_since_good_check(asked.lab, asked.path.at("name"), query.text_or("of", "temperature"), query.page()));
}

Answer pieces_of_program(const Asked& asked) {
  const Query query(asked.query, {"version", "page"});
  std::string program = asked.path.at("name");
  if (const auto version = query.whole_if("version", 1, most_versions)) program += fmt::format("@{}", *version);
  return answer_of(desk::pieces_of_program(asked.lab, program, query.page()));
}

Answer store(const Asked& asked) {
  return answer_of(desk::status_of_store(asked.lab));
}

}  // namespace

std::vector<Route> question_routes() {
  return {
      {"GET", "/api/pieces/{name}/history", "history_of_piece", Needs::sign_in, piece_history},
      {"GET", "/api/due", "due", Needs::sign_in, due},
      {"GET", "/api/trail", "trail", Needs::sign_in, trail},
      {"GET", "/api/lots/{name}/pieces", "pieces_of_lot", Needs::sign_in, pieces_of_lot},
      {"GET", "/api/furnaces/{name}/pieces", "pieces_of_furnace", Needs::sign_in, pieces_of_furnace},
      {"GET", "/api/furnaces/{name}/since-good-check", "pieces_since_good_check", Needs::sign_in, since_good_check},
      {"GET", "/api/programs/{name}/pieces", "pieces_of_program", Needs::sign_in, pieces_of_program},
      {"GET", "/api/store", "status_of_store", Needs::sign_in, store},
  };
}

}  // namespace heatwork::server
