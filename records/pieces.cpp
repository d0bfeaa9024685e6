#include <fmt/format.h>

#include <map>
#include <unordered_set>

#include "records/inside.h"
#include "records/paging.h"
#include "records/statement.h"
#include "records/store.h"

namespace heatwork::records {

namespace {

constexpr int rows_at_a_stroke = 2000;
constexpr std::size_t pieces_at_a_stroke = 250;

/// The rows a question is about. That neither name is empty lets both engines use the small indexes of rows that name something.
struct Asked {
  std::string column, value;
  bool bounded = false;
  std::int64_t from_ms = 0, to_ms = 0;

  [[nodiscard]] std::string where() const {
    const std::string all = fmt::format("uses.{0} <> '' and uses.piece <> '' and uses.{0} = ?", column);
    return bounded ? all + " and uses.at_ms >= ? and uses.at_ms < ?" : all;
  }
  void bind(Statement& statement) const {
    statement.bind(value);
    if (bounded) statement.bind(from_ms).bind(to_ms);
  }
};

std::int64_t count_of(Store::Inside& inside, const Asked& asked) {
  std::int64_t count = 0;
  Statement statement(inside, fmt::format("select count(*) from (select 1 from uses where {} group by uses.piece) as met", asked.where()));
  asked.bind(statement);
  statement.into(count).next();
  return count;
}

/// The pieces of a page with when each was met first: rows are gone through in order of time until the page is full.
std::vector<PieceRow> first_meetings(Store::Inside& inside, const Asked& asked, std::int64_t skip) {
  std::unordered_set<std::string> met;
  std::vector<PieceRow> page;
  PieceRow row;
  row.first_ms = asked.bounded ? asked.from_ms : INT64_MIN;
  for (bool more = true; more;) {
    Statement statement(inside,
                        fmt::format("select uses.at_ms, uses.piece from uses where {} and (uses.at_ms, uses.piece) > (?, ?) order by "
                                    "uses.at_ms, uses.piece limit {}",
                                    asked.where(), rows_at_a_stroke));
    asked.bind(statement);
    const PieceRow after = row;
    statement.bind(after.first_ms).bind(after.piece).into(row.first_ms).into(row.piece);
    int rows = 0;
    while (statement.next()) {
      ++rows;
      if (met.insert(row.piece).second && static_cast<std::int64_t>(met.size()) > skip) page.push_back(row);
      if (page.size() == rows_a_page) return page;
    }
    more = rows == rows_at_a_stroke;
  }
  return page;
}

/// How often each was met, and when last.
void count_meetings(Store::Inside& inside, const Asked& asked, std::vector<PieceRow>& page) {
  std::map<std::string_view, PieceRow*> by_name;
  for (PieceRow& row : page) by_name[row.piece] = &row;
  for (std::size_t from = 0; from < page.size(); from += pieces_at_a_stroke) {
    const std::size_t to = std::min(page.size(), from + pieces_at_a_stroke);
    std::string marks = "(?)";
    for (std::size_t i = from + 1; i < to; ++i) marks += ", (?)";
    Statement statement(inside,
                        fmt::format("with sought(name) as (values {}) select sought.name, max(uses.at_ms), count(*) from sought cross "
                                    "join uses where uses.piece = sought.name and {} group by sought.name",
                                    marks, asked.where()));
    for (std::size_t i = from; i < to; ++i) statement.bind(page[i].piece);
    asked.bind(statement);
    std::string name;
    std::int64_t last_ms = 0, times = 0;
    statement.into(name).into(last_ms).into(times);
    while (statement.next()) {
      by_name.at(name)->last_ms = last_ms;
      by_name.at(name)->times = times;
    }
  }
}

/// Every version of a program: they are few, yet their rows are in no common order, so all of them are gone through.
Page<PieceRow> of_every_version(Store::Inside& inside, const PieceQuery& query, std::int64_t skip) {
  Page<PieceRow> page;
  page.page = query.page;
  const std::string from = query.value + "@", to = query.value + "A";
  Statement statement(
      inside,
      "with met as materialized (select piece, min(at_ms) as first_ms, max(at_ms) as last_ms, count(*) as times from uses "
      "where program <> '' and piece <> '' and program >= ? and program < ? and at_ms >= ? and at_ms < ? group by piece) "
      "select piece, first_ms, last_ms, times, (select count(*) from met) from met order by first_ms, piece limit ? offset ?");
  statement.bind(from).bind(to).bind(query.from_ms).bind(query.to_ms).bind(std::int64_t{rows_a_page}).bind(skip);
  PieceRow row;
  statement.into(row.piece).into(row.first_ms).into(row.last_ms).into(row.times).into(page.count);
  while (statement.next()) page.rows.push_back(row);
  // Behind the last page there is no row to carry the count.
  if (page.rows.empty() && skip > 0) page.count = of_every_version(inside, query, 0).count;
  return page;
}

}  // namespace

Page<PieceRow> Store::pieces(const PieceQuery& query) {
  const std::int64_t skip = rows_before(query.page);
  const bool by_program = query.by == PieceQuery::By::program;
  if (by_program && query.value.find('@') == std::string::npos) return of_every_version(*inside_, query, skip);
  Asked asked;
  asked.column = by_program ? "program" : query.by == PieceQuery::By::lot ? "lot" : "furnace";
  asked.value = query.value;
  asked.bounded = query.from_ms != INT64_MIN || query.to_ms != INT64_MAX;
  asked.from_ms = query.from_ms;
  asked.to_ms = query.to_ms;
  const ReadingView view(*inside_);
  Page<PieceRow> page;
  page.page = query.page;
  page.count = count_of(*inside_, asked);
  if (skip < page.count) page.rows = first_meetings(*inside_, asked, skip);
  count_meetings(*inside_, asked, page.rows);
  return page;
}

}  // namespace heatwork::records
