#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "desk/lab/kept_show.h"
#include "desk/lab/local_time.h"
#include "desk/lab/piece_history.h"
#include "desk/lab/questions.h"
#include "desk/lab/store_questions.h"
#include "tests/store/many.h"

namespace heatwork::store_proof {

namespace {

constexpr std::int64_t month_ms = 30LL * 24 * 3600 * 1000;

std::string day(std::int64_t at_ms) {
  return desk::local_day(at_ms, "UTC");
}

/// How much an answer holds: the count it gives, else the things it lists, else the one it tells of.
std::int64_t rows_of(const desk::CareAnswer& answer) {
  if (answer.wrong || answer.text.empty()) throw std::runtime_error("A question was answered with nothing.");
  if (const desk::Json* count = answer.json.find("count")) return static_cast<std::int64_t>(*count->number());
  std::int64_t rows = 0;
  for (const desk::JsonMember& member : *answer.json.object())
    if (const desk::JsonList* list = member.value.list()) rows += static_cast<std::int64_t>(list->size());
  return std::max<std::int64_t>(1, rows);
}

/// Asked of something that stands, as the command line asks it: the store is opened, and the answer is written as text and as JSON.
desk::CareAnswer answer(const desk::AskedLab& lab, const std::string& question, int furnaces, std::int64_t end_ms) {
  const std::string furnace = fmt::format("furnace-{}", furnaces - 1);
  if (question == "pieces of a lot") return desk::pieces_of_lot(lab, "lot-3", 1);
  if (question == "pieces of a furnace in a month")
    return desk::pieces_of_furnace(lab, {furnace, day(end_ms - 2 * month_ms), day(end_ms - month_ms), 1});
  if (question == "pieces of a furnace in all years") return desk::pieces_of_furnace(lab, {furnace, "", "", 1});
  if (question == "pieces of a furnace since its last good check") return desk::pieces_since_good_check(lab, furnace, "temperature", 1);
  if (question == "history of a piece") return desk::history_of_piece(lab, "piece-40-0");
  if (question == "pieces of a program's version") return desk::pieces_of_program(lab, "program-3@2", 1);
  if (question == "difference of two versions of a program")
    return desk::difference_of_kept(lab, trade::Noun::program, "program-3@1", "program-3@2");
  if (question == "what is due") return desk::due_in_store(lab, {"", "", 1});
  if (question == "a case by its code") return desk::show_kept(lab, trade::Noun::dental_case, "case-41");
  throw std::logic_error("There is no such question.");
}

}  // namespace

std::vector<std::string> questions() {
  return {"pieces of a lot",
          "pieces of a furnace in a month",
          "pieces of a furnace in all years",
          "pieces of a furnace since its last good check",
          "history of a piece",
          "pieces of a program's version",
          "difference of two versions of a program",
          "what is due",
          "a case by its code"};
}

std::int64_t ask(const desk::AskedLab& lab, const std::string& question, int furnaces, std::int64_t end_ms) {
  return rows_of(answer(lab, question, furnaces, end_ms));
}

}  // namespace heatwork::store_proof
