#include <fmt/format.h>

#include <stdexcept>

#include "tests/store/many.h"

namespace heatwork::store_proof {

using By = records::PieceQuery::By;

std::vector<Question> questions() {
  return {{"pieces of a lot", true},
          {"pieces of a furnace in a month", true},
          {"pieces of a furnace in all years", false},
          {"pieces of a furnace since its last good check", true},
          {"history of a piece", true},
          {"pieces of a program's version", true},
          {"two versions of a program", true},
          {"what is due", true},
          {"a case by its code", true}};
}

namespace {

constexpr std::int64_t month_ms = 30LL * 24 * 3600 * 1000;

/// The piece of a late lot: every question is asked of something that stands.
std::int64_t history(records::Store& store) {
  const auto uses = store.uses_of("piece-40-0");
  std::int64_t rows = 0;
  for (const records::UseRow& row : uses.rows) {
    if (!store.find(row.kind, row.id)) throw std::runtime_error("A document of a piece is missing.");
    if (row.kind == "firing" && !store.find("rehearsal", row.id)) throw std::runtime_error("A rehearsal of a piece is missing.");
    ++rows;
  }
  return rows;
}

std::int64_t since_good_check(records::Store& store) {
  const auto checks = store.heads({"check", "furnace-0", "good", 1});
  if (checks.rows.empty()) throw std::runtime_error("No check stands.");
  std::int64_t last = 0;
  for (const records::Head& check : checks.rows) last = std::max(last, check.at_ms);
  return store.pieces({By::furnace, "furnace-0", last, INT64_MAX, 1}).count;
}

}  // namespace

std::int64_t ask(records::Store& store, const std::string& question, int furnaces, std::int64_t end_ms) {
  const std::string furnace = fmt::format("furnace-{}", furnaces - 1);
  if (question == "pieces of a lot") return store.pieces({By::lot, "lot-3", INT64_MIN, INT64_MAX, 1}).count;
  if (question == "pieces of a furnace in a month")
    return store.pieces({By::furnace, furnace, end_ms - 2 * month_ms, end_ms - month_ms, 1}).count;
  if (question == "pieces of a furnace in all years") return store.pieces({By::furnace, furnace, INT64_MIN, INT64_MAX, 1}).count;
  if (question == "pieces of a furnace since its last good check") return since_good_check(store);
  if (question == "history of a piece") return history(store);
  if (question == "pieces of a program's version") {
    const auto newest = store.find("program", "program-3").value();
    return store.pieces({By::program, fmt::format("program-3@{}", newest.version > 1 ? newest.version - 1 : 1), INT64_MIN, INT64_MAX, 1})
        .count;
  }
  if (question == "two versions of a program") return store.find("program", "program-3", 1) && store.find("program", "program-3") ? 2 : 0;
  if (question == "what is due") return store.dues("2027-01-05").count;
  if (question == "a case by its code") return store.find("case", "case-41") ? 1 : 0;
  throw std::logic_error("There is no such question.");
}

}  // namespace heatwork::store_proof
