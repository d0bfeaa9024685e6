#include "records/side_rows.h"

#include <fmt/format.h>

#include "records/entries.h"
#include "records/entries_by_document.h"
#include "records/statement.h"
#include "records/told_twice.h"

namespace heatwork::records {

namespace {

constexpr int rows_a_fetch = 1000;
constexpr int documents_a_fetch = 4;  ///< 8 MB each at most

/// The rows of one name in order of a number that counts them.
template <class Row>
Rows<Row> numbered(Store::Inside& inside, const Name& name, const std::string& columns, const std::string& from, int limit,
                   void (*into)(Statement&, Row&), std::int64_t (*number)(const Row&)) {
  const std::string table = from.substr(0, from.find('.')), by = from.substr(from.find('.') + 1);
  const std::string text =
      fmt::format("select {} from {} where kind = ? and id = ? and {} > ? order by {} limit {}", columns, table, by, by, limit);
  return Rows<Row>([&inside, name, text, into, number](const Row* after) {
    Statement statement(inside, text);
    Row row;
    statement.bind(name.first).bind(name.second).bind(after ? number(*after) : INT64_MIN);
    into(statement, row);
    std::vector<Row> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

/// The one row of a name, if there is one.
template <class Row>
Rows<Row> single(Store::Inside& inside, bool sought, const std::string& text, const std::vector<std::string>& values,
                 void (*into)(Statement&, Row&)) {
  return Rows<Row>([&inside, sought, text, values, into](const Row* after) {
    std::vector<Row> page;
    if (after || !sought) return page;
    Statement statement(inside, text);
    for (const std::string& value : values) statement.bind(value);
    Row row;
    into(statement, row);
    while (statement.next()) page.push_back(row);
    return page;
  });
}

Rows<Document> documents_of(Store::Inside& inside, const Name& name) {
  return numbered<Document>(
      inside, name, "kind, id, version, body, typed, hash", "documents.version", documents_a_fetch,
      [](Statement& from, Document& row) {
        from.into(row.kind).into(row.id).into(row.version).into(row.body).into(row.typed).into(row.hash);
      },
      [](const Document& row) { return std::int64_t{row.version}; });
}

Rows<IndexUse> uses_of(Store::Inside& inside, const Name& name) {
  return numbered<IndexUse>(
      inside, name, "kind, id, row, at_ms, piece, furnace, program, lot", "uses.row", rows_a_fetch,
      [](Statement& from, IndexUse& row) {
        Use& use = row.use;
        from.into(row.kind).into(row.id).into(row.row).into(use.at_ms).into(use.piece).into(use.furnace).into(use.program).into(use.lot);
      },
      [](const IndexUse& row) { return std::int64_t{row.row}; });
}

Rows<IndexDue> dues_of(Store::Inside& inside, const Name& name) {
  return numbered<IndexDue>(
      inside, name, "kind, id, row, due_on, what", "dues.row", rows_a_fetch,
      [](Statement& from, IndexDue& row) { from.into(row.kind).into(row.id).into(row.row).into(row.due.on).into(row.due.what); },
      [](const IndexDue& row) { return std::int64_t{row.row}; });
}

void for_names_of(Store::Inside& inside, const std::string& kind, const std::string& id, const std::string& table,
                  const std::function<void(const Name&)>& take) {
  Name last;
  for (int rows = rows_a_fetch; rows == rows_a_fetch;) {
    const Name after = last;
    Statement statement(inside, fmt::format("select distinct {0}, {1} from {2} where ({0}, {1}) > (?, ?) order by {0}, {1} limit {3}", kind,
                                            id, table, rows_a_fetch));
    statement.bind(after.first).bind(after.second).into(last.first).into(last.second);
    for (rows = 0; statement.next(); ++rows) take(last);
  }
}

}  // namespace

SideRows all_rows(Store::Inside& inside) {
  return {inside.documents(),  entries_by_document(inside), inside.head_rows(), inside.index_uses(),
          inside.index_dues(), inside.personals(),          inside.photos()};
}

SideRows rows_of(Store::Inside& inside, const Name& name) {
  const bool person = name.first == personal_kind, photo = name.first == photo_kind;
  return {
      documents_of(inside, name),
      numbered<Entry>(
          inside, name, std::string(entry_columns), "trail.sequence", rows_a_fetch, [](Statement& from, Entry& row) { into(from, row); },
          [](const Entry& row) { return row.sequence; }),
      single<HeadRow>(inside, true, "select kind, id, version, label, state, words, at_ms from heads where kind = ? and id = ?",
                      {name.first, name.second},
                      [](Statement& from, HeadRow& row) {
                        from.into(row.kind).into(row.id).into(row.version).into(row.label).into(row.state).into(row.words).into(row.at_ms);
                      }),
      uses_of(inside, name),
      dues_of(inside, name),
      single<PersonalRow>(inside, person, "select code, salt, body from personal where code = ?", {name.second},
                          [](Statement& from, PersonalRow& row) { from.into(row.code).into(row.salt).into(row.body); }),
      single<PhotoRow>(inside, photo, "select hash, bytes_base64 from photos where hash = ?", {name.second},
                       [](Statement& from, PhotoRow& row) { from.into(row.hash).into(row.bytes_base64); })};
}

void for_every_name(Store::Inside& inside, const std::function<void(const Name&)>& take) {
  for (const char* table : {"documents", "trail", "heads", "uses", "dues"}) for_names_of(inside, "kind", "id", table, take);
  for_names_of(inside, "code", "code", "personal", [&](const Name& name) { take({personal_kind, name.second}); });
  for_names_of(inside, "hash", "hash", "photos", [&](const Name& name) { take({photo_kind, name.second}); });
}

}  // namespace heatwork::records
