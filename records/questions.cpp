#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "records/connection.h"
#include "records/entries.h"
#include "records/hash.h"
#include "records/inside.h"
#include "records/statement.h"
#include "records/store.h"

namespace heatwork::records {

namespace {

std::int64_t skipped(int page) {
  if (page < 1) throw StoreError(StoreProblem::bad_value, fmt::format("There is no page {}: pages count from 1.", page));
  return std::int64_t{page - 1} * rows_a_page;
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return out;
}

/// A text as a pattern that means it letter by letter.
std::string as_pattern(std::string_view word) {
  std::string pattern = "%";
  for (const char letter : word) {
    if (letter == '%' || letter == '_' || letter == '|') pattern += '|';
    pattern += letter;
  }
  return pattern + "%";
}

Document proven(Document document, const Store::Inside& inside) {
  if (document_hash(document) != document.hash)
    throw StoreError(StoreProblem::damaged,
                     fmt::format("Version {} of the {} \"{}\" is damaged: its bytes are not those that were kept. \"store verify\" tells "
                                 "more; restore a backup.",
                                 document.version, document.kind, document.id));
  static_cast<void>(inside);
  return document;
}

void into(Statement& statement, Document& document) {
  statement.into(document.kind).into(document.id).into(document.version).into(document.body).into(document.typed).into(document.hash);
}

}  // namespace

std::optional<Document> Store::find(std::string_view kind, std::string_view id, std::optional<int> version) {
  const std::string of_kind(kind), of_id(id);
  Statement statement(*inside_, fmt::format("select kind, id, version, body, typed, hash from documents where kind = ? and id = ?{} order "
                                            "by version desc limit 1",
                                            version ? " and version = ?" : ""));
  statement.bind(of_kind).bind(of_id);
  if (version) statement.bind(std::int64_t{*version});
  Document document;
  into(statement, document);
  if (!statement.next()) return std::nullopt;
  return proven(std::move(document), *inside_);
}

std::vector<Document> Store::versions(std::string_view kind, std::string_view id) {
  const std::string of_kind(kind), of_id(id);
  Statement statement(*inside_, "select kind, id, version, body, typed, hash from documents where kind = ? and id = ? order by version");
  Document document;
  statement.bind(of_kind).bind(of_id);
  into(statement, document);
  std::vector<Document> all;
  while (statement.next()) all.push_back(proven(document, *inside_));
  return all;
}

Page<Head> Store::heads(const HeadQuery& query) {
  const std::int64_t skip = skipped(query.page);
  const std::string pattern = as_pattern(query.word), small = as_pattern(lower(query.word));
  std::string where;
  const auto also = [&](std::string_view term) { where += fmt::format("{}{}", where.empty() ? " where " : " and ", term); };
  if (!query.kind.empty()) also("kind = ?");
  if (!query.state.empty()) also("state = ? and state <> ''");
  if (!query.word.empty()) also("(lower(id) like ? escape '|' or lower(label) like ? escape '|' or words like ? escape '|')");
  const auto bind = [&](Statement& statement) {
    if (!query.kind.empty()) statement.bind(query.kind);
    if (!query.state.empty()) statement.bind(query.state);
    if (!query.word.empty()) statement.bind(small).bind(small).bind(small);
  };
  const ReadingView view(*inside_);
  Page<Head> page;
  page.page = query.page;
  Statement count(*inside_, "select count(*) from heads" + where);
  bind(count);
  count.into(page.count).next();
  Statement statement(*inside_,
                      fmt::format("select kind, id, version, label, state, at_ms from heads{} order by kind, id limit ? offset ?", where));
  bind(statement);
  Head head;
  statement.bind(std::int64_t{rows_a_page}).bind(skip);
  statement.into(head.kind).into(head.id).into(head.version).into(head.label).into(head.state).into(head.at_ms);
  while (statement.next()) page.rows.push_back(head);
  return page;
}

namespace {

/// The column a question goes by, and its range: "name" means every version of it, "name@" up to the letter after "@".
struct Sought {
  std::string column, from, to;
  bool one = true;
};

Sought sought(const PieceQuery& query) {
  switch (query.by) {
    case PieceQuery::By::furnace:
      return {"furnace", query.value, "", true};
    case PieceQuery::By::lot:
      return {"lot", query.value, "", true};
    default:
      if (query.value.find('@') != std::string::npos) return {"program", query.value, "", true};
      return {"program", query.value + "@", query.value + "A", false};
  }
}

}  // namespace

Page<PieceRow> Store::pieces(const PieceQuery& query) {
  const std::int64_t skip = skipped(query.page);
  const Sought by = sought(query);
  // The condition that a column is not empty is what lets both engines use the small index of rows that name something.
  const std::string where = fmt::format("{0} <> '' and {1} and at_ms >= ? and at_ms < ?", by.column,
                                        by.one ? by.column + " = ?" : fmt::format("{0} >= ? and {0} < ?", by.column));
  const auto bind = [&](Statement& statement) {
    statement.bind(by.from);
    if (!by.one) statement.bind(by.to);
    statement.bind(query.from_ms).bind(query.to_ms);
  };
  Statement statement(*inside_,
                      fmt::format("with met as materialized (select piece, min(at_ms) as first_ms, max(at_ms) as last_ms, count(*) as "
                                  "times from uses where {} group by piece) select piece, first_ms, last_ms, times, (select "
                                  "count(*) from met) from met order by first_ms, piece limit ? offset ?",
                                  where));
  bind(statement);
  statement.bind(std::int64_t{rows_a_page}).bind(skip);
  Page<PieceRow> page;
  page.page = query.page;
  PieceRow row;
  statement.into(row.piece).into(row.first_ms).into(row.last_ms).into(row.times).into(page.count);
  while (statement.next()) page.rows.push_back(row);
  if (!page.rows.empty() || query.page == 1) return page;
  // Behind the last page there is no row to carry the count.
  PieceQuery first = query;
  first.page = 1;
  page.count = pieces(first).count;
  return page;
}

Page<UseRow> Store::uses_of(std::string_view piece, int page_number) {
  const std::int64_t skip = skipped(page_number);
  const std::string of(piece);
  const ReadingView view(*inside_);
  Page<UseRow> page;
  page.page = page_number;
  Statement(*inside_, "select count(*) from uses where piece = ? and piece <> ''").bind(of).into(page.count).next();
  Statement statement(*inside_,
                      "select kind, id, at_ms, piece, furnace, program, lot from uses where piece = ? and piece <> '' order by "
                      "at_ms, kind, id, row limit ? offset ?");
  UseRow row;
  statement.bind(of).bind(std::int64_t{rows_a_page}).bind(skip);
  statement.into(row.kind)
      .into(row.id)
      .into(row.use.at_ms)
      .into(row.use.piece)
      .into(row.use.furnace)
      .into(row.use.program)
      .into(row.use.lot);
  while (statement.next()) page.rows.push_back(row);
  return page;
}

Page<DueRow> Store::dues(std::string_view until, int page_number) {
  const std::int64_t skip = skipped(page_number);
  const std::string day(until);
  const ReadingView view(*inside_);
  Page<DueRow> page;
  page.page = page_number;
  Statement(*inside_, "select count(*) from dues where due_on <= ?").bind(day).into(page.count).next();
  Statement statement(*inside_,
                      "select d.kind, d.id, h.label, d.due_on, d.what from dues d join heads h on h.kind = d.kind and h.id = d.id "
                      "where d.due_on <= ? order by d.due_on, d.kind, d.id, d.row limit ? offset ?");
  DueRow row;
  statement.bind(day).bind(std::int64_t{rows_a_page}).bind(skip);
  statement.into(row.kind).into(row.id).into(row.label).into(row.due.on).into(row.due.what);
  while (statement.next()) page.rows.push_back(row);
  return page;
}

Page<Entry> Store::trail(const EntryQuery& query, int page_number) {
  const std::int64_t skip = skipped(page_number);
  const ReadingView view(*inside_);
  std::string where = " where sequence > ?";
  if (!query.kind.empty()) where += " and kind = ?";
  if (!query.id.empty()) where += " and id = ?";
  const auto bind = [&](Statement& statement) {
    statement.bind(query.after);
    if (!query.kind.empty()) statement.bind(query.kind);
    if (!query.id.empty()) statement.bind(query.id);
  };
  Page<Entry> page;
  page.page = page_number;
  Statement count(*inside_, "select count(*) from trail" + where);
  bind(count);
  count.into(page.count).next();
  Statement statement(*inside_, fmt::format("select {} from trail{} order by sequence {} limit ? offset ?", entry_columns, where,
                                            query.newest_first ? "desc" : "asc"));
  bind(statement);
  Entry entry;
  statement.bind(std::int64_t{rows_a_page}).bind(skip);
  into(statement, entry);
  while (statement.next()) page.rows.push_back(entry);
  return page;
}

std::optional<std::string> Store::personal(std::string_view code) {
  const std::string of(code);
  std::string body;
  Statement statement(*inside_, "select body from personal where code = ?");
  return statement.bind(of).into(body).next() ? std::optional(body) : std::nullopt;
}

std::optional<std::string> Store::photo(std::string_view hash) {
  PhotoRow row{std::string(hash), ""};
  const std::string of(hash);
  Statement statement(*inside_, "select bytes_base64 from photos where hash = ?");
  if (!statement.bind(of).into(row.bytes_base64).next()) return std::nullopt;
  return bytes_of(row);
}

}  // namespace heatwork::records
