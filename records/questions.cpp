#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "records/connection.h"
#include "records/entries.h"
#include "records/hash.h"
#include "records/inside.h"
#include "records/paging.h"
#include "records/statement.h"
#include "records/store.h"

namespace heatwork::records {

namespace {

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

Document proven(Document document) {
  if (document_hash(document) != document.hash)
    throw StoreError(StoreProblem::damaged,
                     fmt::format("Version {} of the {} \"{}\" is damaged: its bytes are not those that were kept. \"store verify\" tells "
                                 "more; restore a backup.",
                                 document.version, document.kind, document.id));
  return document;
}

constexpr std::size_t at_a_stroke = 250;

/// "(?), (?), (?)": the places of so many names.
std::string marks(std::size_t count) {
  std::string all = "(?)";
  for (std::size_t i = 1; i < count; ++i) all += ", (?)";
  return all;
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
  return proven(std::move(document));
}

std::vector<Document> Store::newest(std::string_view kind, const std::vector<std::string>& ids) {
  const std::string of_kind(kind);
  const ReadingView view(*inside_);
  std::vector<Document> all;
  for (std::size_t from = 0; from < ids.size(); from += at_a_stroke) {
    const std::size_t to = std::min(ids.size(), from + at_a_stroke);
    Statement statement(*inside_,
                        fmt::format("with sought(name) as (values {}) select d.kind, d.id, d.version, d.body, d.typed, d.hash from sought "
                                    "join heads h on h.kind = ? and h.id = sought.name join documents d on d.kind = h.kind and d.id = h.id "
                                    "and d.version = h.version",
                                    marks(to - from)));
    for (std::size_t i = from; i < to; ++i) statement.bind(ids[i]);
    Document document;
    into(statement.bind(of_kind), document);
    while (statement.next()) all.push_back(proven(document));
  }
  return all;
}

std::map<std::string, std::int64_t> Store::first_entries(std::string_view kind, const std::vector<std::string>& ids) {
  const std::string of_kind(kind);
  const ReadingView view(*inside_);
  std::map<std::string, std::int64_t> all;
  for (std::size_t from = 0; from < ids.size(); from += at_a_stroke) {
    const std::size_t to = std::min(ids.size(), from + at_a_stroke);
    Statement statement(*inside_, fmt::format("with sought(name) as (values {}) select t.id, min(t.sequence) from sought join trail t on "
                                              "t.kind = ? and t.id = sought.name group by t.id",
                                              marks(to - from)));
    for (std::size_t i = from; i < to; ++i) statement.bind(ids[i]);
    std::string id;
    std::int64_t sequence = 0;
    statement.bind(of_kind).into(id).into(sequence);
    while (statement.next()) all.emplace(id, sequence);
  }
  return all;
}

std::map<std::string, std::string> Store::kept_at(std::string_view kind, const std::vector<std::string>& ids) {
  const std::string of_kind(kind);
  const ReadingView view(*inside_);
  std::map<std::string, std::string> all;
  for (std::size_t from = 0; from < ids.size(); from += at_a_stroke) {
    const std::size_t to = std::min(ids.size(), from + at_a_stroke);
    Statement statement(*inside_,
                        fmt::format("with sought(name) as (values {}) select t.id, t.at_utc from sought join heads h on h.kind = ? "
                                    "and h.id = sought.name join trail t on t.kind = h.kind and t.id = h.id and "
                                    "t.version = h.version",
                                    marks(to - from)));
    for (std::size_t i = from; i < to; ++i) statement.bind(ids[i]);
    std::string id, at_utc;
    statement.bind(of_kind).into(id).into(at_utc);
    while (statement.next()) all.emplace(id, at_utc);
  }
  return all;
}

std::vector<std::string> Store::naming(std::string_view kind, const std::vector<std::string>& names) {
  const std::set<std::string_view> sought(names.begin(), names.end());
  const std::string of_kind(kind);
  std::vector<std::string> all;
  std::string id, words;
  Statement statement(*inside_, "select id, words from heads where kind = ?");
  statement.bind(of_kind).into(id).into(words);
  while (statement.next()) {
    const std::string_view text = words;
    for (std::size_t from = 0; from < text.size();) {
      const std::size_t to = std::min(text.find(' ', from), text.size());
      if (sought.contains(text.substr(from, to - from))) {
        all.push_back(id);
        break;
      }
      from = to + 1;
    }
  }
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<Document> Store::versions(std::string_view kind, std::string_view id) {
  const std::string of_kind(kind), of_id(id);
  Statement statement(*inside_, "select kind, id, version, body, typed, hash from documents where kind = ? and id = ? order by version");
  Document document;
  statement.bind(of_kind).bind(of_id);
  into(statement, document);
  std::vector<Document> all;
  while (statement.next()) all.push_back(proven(document));
  return all;
}

Page<Head> Store::heads(const HeadQuery& query) {
  const std::int64_t skip = rows_before(query.page);
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
  // Tallies stand beside the documents; only a word must be looked for in each of them.
  Statement count(
      *inside_,
      (query.word.empty() ? "select cast(coalesce(sum(documents), 0) as bigint) from tallies" : "select count(*) from heads") + where);
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

std::vector<KindCount> Store::kinds() {
  const ReadingView view(*inside_);
  std::vector<KindCount> all;
  KindCount each;
  Statement statement(*inside_, "select kind, cast(sum(documents) as bigint) from tallies group by kind order by kind");
  statement.into(each.kind).into(each.count);
  while (statement.next()) all.push_back(each);
  return all;
}

Page<UseRow> Store::uses_of(std::string_view piece, int page_number) {
  const std::int64_t skip = rows_before(page_number);
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

std::optional<LastUse> Store::last_use(std::string_view program) {
  const std::string of(program);
  const ReadingView view(*inside_);
  LastUse last;
  Statement statement(
      *inside_,
      "select at_ms, furnace from uses where program = ? and program <> '' and piece <> '' order by at_ms desc, piece desc limit 1");
  statement.bind(of).into(last.at_ms).into(last.furnace);
  if (!statement.next()) return std::nullopt;
  return last;
}

Page<FurnaceRow> Store::of_furnace(std::string_view furnace, int page_number) {
  const std::int64_t skip = rows_before(page_number);
  const std::string of(furnace);
  const ReadingView view(*inside_);
  Page<FurnaceRow> page;
  page.page = page_number;
  Statement(*inside_, "select count(*) from uses where furnace = ? and furnace <> '' and piece = ''").bind(of).into(page.count).next();
  Statement statement(*inside_,
                      "select u.kind, u.id, h.state, u.at_ms from uses u join heads h on h.kind = u.kind and h.id = u.id where "
                      "u.furnace = ? and u.furnace <> '' and u.piece = '' order by u.at_ms desc, u.kind desc, u.id desc, u.row desc "
                      "limit ? offset ?");
  FurnaceRow row;
  statement.bind(of).bind(std::int64_t{rows_a_page}).bind(skip);
  statement.into(row.kind).into(row.id).into(row.state).into(row.at_ms);
  while (statement.next()) page.rows.push_back(row);
  return page;
}

Page<DueRow> Store::dues(std::string_view until, int page_number) {
  const std::int64_t skip = rows_before(page_number);
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
  const std::int64_t skip = rows_before(page_number);
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
  // Sequences have no gaps, so the newest one counts the whole trail.
  const bool whole = query.kind.empty() && query.id.empty();
  Statement count(*inside_, whole ? std::string("select coalesce(max(sequence), 0) from trail") : "select count(*) from trail" + where);
  if (!whole) bind(count);
  count.into(page.count).next();
  if (whole) page.count = std::max<std::int64_t>(0, page.count - std::max<std::int64_t>(0, query.after));
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
