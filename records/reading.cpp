#include <fmt/format.h>

#include "records/connection.h"
#include "records/hash.h"
#include "records/inside.h"
#include "records/statement.h"

namespace heatwork::records {

namespace {

constexpr int small_rows = 1000;  ///< rows fetched at a stroke where rows are small
constexpr std::size_t page_bytes = 4'000'000;

std::string pages_of(std::string_view columns, std::string_view table, std::string_view key, std::string_view marks, bool from_start) {
  return fmt::format("select {} from {}{} order by {} limit {}", columns, table,
                     from_start ? "" : fmt::format(" where ({}) > ({})", key, marks), key, small_rows);
}

/// PostgreSQL hands an answer over whole, so it is asked for no more than a few megabytes; sizes are known there without reading.
std::string document_pages(bool sqlite, bool from_start) {
  constexpr std::string_view columns = "kind, id, version, body, typed, hash";
  if (sqlite) return pages_of(columns, "documents", "kind, id, version", "?, ?, ?", from_start);
  return fmt::format(
      "select {0} from (select {0}, octet_length(body) + octet_length(typed) as bytes, sum(octet_length(body) + octet_length(typed)) over "
      "(order by kind, id, version) as bytes_so_far from documents{1} order by kind, id, version limit {2}) as page where bytes_so_far - "
      "bytes < {3} order by kind, id, version",
      columns, from_start ? "" : " where (kind, id, version) > (?, ?, ?)", small_rows, page_bytes);
}

}  // namespace

std::string sealed(std::string_view key, std::string_view text) {
  return fmt::format("{} {}", text, Hash().value(key).value(text).hex());
}

std::string unsealed(const AboutRow& row) {
  const auto blank = row.value.rfind(' ');
  const std::string text = blank == std::string::npos ? "" : row.value.substr(0, blank);
  if (blank == std::string::npos || sealed(row.key, text) != row.value)
    throw StoreError(StoreProblem::damaged, fmt::format("The store is damaged: what it says of itself under \"{}\" was altered.", row.key));
  return text;
}

std::string personal_hash(const PersonalRow& row) {
  return Hash().value(row.salt).value(row.code).value(row.body).hex();
}

std::string photo_hash(std::string_view bytes) {
  return hash_of_bytes(bytes);
}

std::string bytes_of(const PhotoRow& row) {
  std::string bytes;
  if (!from_base64(row.bytes_base64, bytes) || photo_hash(bytes) != row.hash)
    throw StoreError(StoreProblem::damaged, fmt::format("The photo {} is damaged: its bytes are not those that were kept.", row.hash));
  return bytes;
}

Rows<AboutRow> Store::Inside::abouts() {
  return Rows<AboutRow>([this](const AboutRow* after) {
    Statement statement(*this, pages_of("key, value", "about", "key", "?", !after));
    AboutRow row;
    if (after) statement.bind(after->key);
    statement.into(row.key).into(row.value);
    std::vector<AboutRow> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<Document> Store::Inside::documents() {
  return Rows<Document>([this](const Document* after) {
    Statement statement(*this, document_pages(sqlite(), !after));
    Document row;
    if (after) statement.bind(after->kind).bind(after->id).bind(std::int64_t{after->version});
    statement.into(row.kind).into(row.id).into(row.version).into(row.body).into(row.typed).into(row.hash);
    std::vector<Document> page;
    for (std::size_t bytes = 0; bytes < page_bytes && statement.next(); bytes += row.body.size() + row.typed.size()) page.push_back(row);
    return page;
  });
}

Rows<HeadRow> Store::Inside::head_rows() {
  return Rows<HeadRow>([this](const HeadRow* after) {
    Statement statement(*this, pages_of("kind, id, version, label, state, words, at_ms", "heads", "kind, id", "?, ?", !after));
    HeadRow row;
    if (after) statement.bind(after->kind).bind(after->id);
    statement.into(row.kind).into(row.id).into(row.version).into(row.label).into(row.state).into(row.words).into(row.at_ms);
    std::vector<HeadRow> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<IndexUse> Store::Inside::index_uses() {
  return Rows<IndexUse>([this](const IndexUse* after) {
    constexpr std::string_view columns = "kind, id, row, at_ms, piece, furnace, program, lot";
    Statement statement(*this, pages_of(columns, "uses", "kind, id, row", "?, ?, ?", !after));
    IndexUse row;
    if (after) statement.bind(after->kind).bind(after->id).bind(std::int64_t{after->row});
    Use& use = row.use;
    statement.into(row.kind).into(row.id).into(row.row).into(use.at_ms).into(use.piece).into(use.furnace).into(use.program).into(use.lot);
    std::vector<IndexUse> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<IndexDue> Store::Inside::index_dues() {
  return Rows<IndexDue>([this](const IndexDue* after) {
    Statement statement(*this, pages_of("kind, id, row, due_on, what", "dues", "kind, id, row", "?, ?, ?", !after));
    IndexDue row;
    if (after) statement.bind(after->kind).bind(after->id).bind(std::int64_t{after->row});
    statement.into(row.kind).into(row.id).into(row.row).into(row.due.on).into(row.due.what);
    std::vector<IndexDue> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<TallyRow> Store::Inside::tallies() {
  return Rows<TallyRow>([this](const TallyRow* after) {
    Statement statement(*this, pages_of("kind, state, documents", "tallies", "kind, state", "?, ?", !after));
    TallyRow row;
    if (after) statement.bind(after->kind).bind(after->state);
    statement.into(row.kind).into(row.state).into(row.documents);
    std::vector<TallyRow> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<PersonalRow> Store::Inside::personals() {
  return Rows<PersonalRow>([this](const PersonalRow* after) {
    Statement statement(*this, pages_of("code, salt, body", "personal", "code", "?", !after));
    PersonalRow row;
    if (after) statement.bind(after->code);
    statement.into(row.code).into(row.salt).into(row.body);
    std::vector<PersonalRow> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<PhotoRow> Store::Inside::photos() {
  return Rows<PhotoRow>([this](const PhotoRow* after) {
    Statement statement(*this,
                        fmt::format("select hash, bytes_base64 from photos{} order by hash limit 1", after ? " where hash > ?" : ""));
    PhotoRow row;
    if (after) statement.bind(after->hash);
    statement.into(row.hash).into(row.bytes_base64);
    return statement.next() ? std::vector<PhotoRow>{row} : std::vector<PhotoRow>{};
  });
}

std::int64_t Store::Inside::count(std::string_view table) {
  std::int64_t rows = 0;
  Statement statement(*this, fmt::format("select count(*) from {}", table));
  statement.into(rows).next();
  return rows;
}

std::optional<std::string> Store::Inside::about(std::string_view key) {
  AboutRow row{std::string(key), ""};
  Statement statement(*this, "select value from about where key = ?");
  if (!statement.bind(row.key).into(row.value).next()) return std::nullopt;
  return unsealed(row);
}

}  // namespace heatwork::records
