#include "records/stored_pages.h"

#include <fmt/format.h>

#include <memory>
#include <string>

#include "records/statement.h"

namespace heatwork::records {

namespace {

constexpr int most_rows = 2000;
constexpr std::size_t most_bytes = 4'000'000;
constexpr std::int64_t blocks_a_window = 32;

void into(Statement& statement, Document& row) {
  statement.into(row.kind).into(row.id).into(row.version).into(row.body).into(row.typed).into(row.hash);
}
void into(Statement& statement, HeadRow& row) {
  statement.into(row.kind).into(row.id).into(row.version).into(row.label).into(row.state).into(row.words).into(row.at_ms);
}
void into(Statement& statement, IndexUse& row) {
  Use& use = row.use;
  statement.into(row.kind).into(row.id).into(row.row).into(use.at_ms).into(use.piece).into(use.furnace).into(use.program).into(use.lot);
}
void into(Statement& statement, IndexDue& row) {
  statement.into(row.kind).into(row.id).into(row.row).into(row.due.on).into(row.due.what);
}
void into(Statement& statement, PersonalRow& row) {
  statement.into(row.code).into(row.salt).into(row.body);
}
void into(Statement& statement, PhotoRow& row) {
  statement.into(row.hash).into(row.bytes_base64);
}

std::size_t bytes_in(const Document& row) {
  return row.body.size() + row.typed.size();
}
std::size_t bytes_in(const HeadRow& row) {
  return row.label.size() + row.words.size();
}
std::size_t bytes_in(const PersonalRow& row) {
  return row.body.size();
}
std::size_t bytes_in(const PhotoRow& row) {
  return row.bytes_base64.size();
}
template <class Row>
std::size_t bytes_in(const Row& /*row*/) {
  return 0;
}

struct Table {
  std::string name, columns;
  std::string bytes;  ///< of what may be large in a row, in SQL
};

/// SQLite numbers rows as they come, and a table lies in that order.
template <class Row>
StoredPages<Row> by_number(Store::Inside& inside, const Table& table) {
  const std::string text =
      fmt::format("select rowid, {} from {} where rowid > ? order by rowid limit {}", table.columns, table.name, most_rows);
  return StoredPages<Row>([&inside, text, last = INT64_MIN](std::vector<Row>& page) mutable {
    Statement statement(inside, text);
    Row row;
    statement.bind(last).into(last);
    into(statement, row);
    for (std::size_t bytes = 0; bytes < most_bytes && statement.next(); bytes += bytes_in(row)) page.push_back(row);
    return !page.empty();
  });
}

/// PostgreSQL is asked for a few blocks of a table at a time, and for no more than a few megabytes: it hands an answer over whole. How
/// large a row is, is known there without reading what is large in it.
template <class Row>
StoredPages<Row> by_block(Store::Inside& inside, const Table& table) {
  std::int64_t blocks = 0;
  Statement(inside, fmt::format("select pg_relation_size('{}') / cast(current_setting('block_size') as bigint)", table.name))
      .into(blocks)
      .next();
  struct At {
    std::int64_t block = 0;
    std::string after = "(0,0)";
  };
  return StoredPages<Row>([&inside, table, blocks, at = At()](std::vector<Row>& page) mutable {
    if (at.block >= blocks) return false;
    const std::string window = fmt::format("ctid > '{}' and ctid < '({},0)'", at.after, at.block + blocks_a_window);
    Statement statement(
        inside, fmt::format("select cast(page.place as text), {0} from (select ctid as place, {0}, {1} as bytes, sum({1}) over (order by "
                            "ctid) as bytes_so_far from {2} where {3} order by ctid limit {4}) as page where bytes_so_far - bytes < "
                            "{5} order by page.place",
                            table.columns, table.bytes, table.name, window, most_rows, most_bytes));
    Row row;
    statement.into(at.after);
    into(statement, row);
    while (statement.next()) page.push_back(row);
    if (page.empty()) {
      at.block += blocks_a_window;
      at.after = fmt::format("({},0)", at.block);
    }
    return true;
  });
}

template <class Row>
StoredPages<Row> pages_of(Store::Inside& inside, const Table& table) {
  return inside.sqlite() ? by_number<Row>(inside, table) : by_block<Row>(inside, table);
}

}  // namespace

StoredPages<Document> stored_documents(Store::Inside& inside) {
  return pages_of<Document>(inside, {"documents", "kind, id, version, body, typed, hash", "octet_length(body) + octet_length(typed)"});
}
StoredPages<HeadRow> stored_heads(Store::Inside& inside) {
  return pages_of<HeadRow>(inside, {"heads", "kind, id, version, label, state, words, at_ms", "octet_length(label) + octet_length(words)"});
}
StoredPages<IndexUse> stored_uses(Store::Inside& inside) {
  return pages_of<IndexUse>(inside, {"uses", "kind, id, row, at_ms, piece, furnace, program, lot", "0"});
}
StoredPages<IndexDue> stored_dues(Store::Inside& inside) {
  return pages_of<IndexDue>(inside, {"dues", "kind, id, row, due_on, what", "octet_length(what)"});
}
StoredPages<PersonalRow> stored_personals(Store::Inside& inside) {
  return pages_of<PersonalRow>(inside, {"personal", "code, salt, body", "octet_length(body)"});
}
StoredPages<PhotoRow> stored_photos(Store::Inside& inside) {
  return pages_of<PhotoRow>(inside, {"photos", "hash, bytes_base64", "octet_length(bytes_base64)"});
}

}  // namespace heatwork::records
