#include "records/writing.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <set>

#include "records/statement.h"
#include "records/values.h"

namespace heatwork::records {

namespace {

constexpr std::size_t values_a_statement = 600;
constexpr std::size_t keys_a_statement = 128;

/// "(?, ?), (?, ?)"
std::string marks(std::size_t rows, std::size_t columns) {
  std::string row = "(?";
  for (std::size_t i = 1; i < columns; ++i) row += ", ?";
  row += ')';
  std::string all = row;
  all.reserve(rows * (row.size() + 2));
  for (std::size_t i = 1; i < rows; ++i) all += ", " + row;
  return all;
}

/// To a server many rows go in one statement, as the way there and back is what costs; SQLite reads a short statement once and
/// runs it for each row.
template <class Row>
void insert_rows(Store::Inside& inside, std::string_view into, const std::vector<Row>& rows, void (*bind)(Statement&, const Row&),
                 std::size_t at_a_time = values_a_statement) {
  if (rows.empty()) return;
  const auto columns = static_cast<std::size_t>(std::count(into.begin(), into.end(), ',')) + 1;
  const std::size_t step = inside.sqlite() ? 1 : std::max<std::size_t>(1, at_a_time / columns);
  std::optional<Statement> statement;
  std::size_t prepared_for = 0;
  for (std::size_t from = 0; from < rows.size(); from += step) {
    const std::size_t to = std::min(rows.size(), from + step);
    if (to - from != prepared_for) statement.emplace(inside, fmt::format("insert into {} values {}", into, marks(to - from, columns)));
    prepared_for = to - from;
    for (std::size_t i = from; i < to; ++i) bind(*statement, rows[i]);
    statement->run();
  }
}

void for_keys(const std::vector<Key>& keys, const std::function<void(const std::string& marks, std::size_t from, std::size_t to)>& work) {
  for (std::size_t from = 0; from < keys.size(); from += keys_a_statement) {
    const std::size_t to = std::min(keys.size(), from + keys_a_statement);
    work(marks(to - from, 2), from, to);
  }
}

using Tallies = std::map<std::pair<std::string, std::string>, std::int64_t>;  ///< by kind and state

/// Stores of earlier formats keep none.
void tally(Store::Inside& inside, const Tallies& more) {
  if (inside.found.format < 3) return;
  bool less = false;
  for (const auto& [of, documents] : more) {
    if (documents == 0) continue;
    Statement(inside,
              "insert into tallies (kind, state, documents) values (?, ?, ?) on conflict (kind, state) do update set documents = "
              "tallies.documents + excluded.documents")
        .bind(of.first)
        .bind(of.second)
        .bind(documents)
        .run();
    less = less || documents < 0;
  }
  if (less) inside.run("delete from tallies where documents = 0");
}

/// Takes a document's head away. A state it had is counted off.
void drop_heads(Statement& statement, Tallies& off) {
  std::pair<std::string, std::string> of;
  statement.into(of.first).into(of.second);
  while (statement.next()) --off[of];
}

/// Answers count a document once a piece; here that is made sure of.
void check_uses(const Document& document, const Index& index) {
  for (const auto of : {&Use::furnace, &Use::program, &Use::lot}) {
    std::set<std::pair<std::string_view, std::string_view>> seen;
    for (const Use& use : index.uses)
      if (!(use.*of).empty() && !seen.emplace(use.piece, use.*of).second)
        throw StoreError(StoreProblem::bad_value, fmt::format("The {} \"{}\" names the piece \"{}\" twice with \"{}\". Nothing was kept.",
                                                              document.kind, document.id, use.piece, use.*of));
  }
}

}  // namespace

void Store::Inside::insert(const std::vector<AboutRow>& rows) {
  insert_rows<AboutRow>(*this, "about (key, value)", rows, [](Statement& to, const AboutRow& row) { to.bind(row.key).bind(row.value); });
}

void Store::Inside::insert(const std::vector<Document>& rows) {
  std::size_t largest = 0;
  for (const Document& row : rows) largest = std::max(largest, row.body.size() + row.typed.size());
  // A statement carries its values in memory, more than once.
  const std::size_t at_a_time = largest > 100'000 ? 1 : values_a_statement;
  insert_rows<Document>(
      *this, "documents (kind, id, version, body, typed, hash)", rows,
      [](Statement& to, const Document& row) {
        to.bind(row.kind).bind(row.id).bind(std::int64_t{row.version}).bind(row.body).bind(row.typed).bind(row.hash);
      },
      at_a_time);
}

void Store::Inside::insert(const std::vector<HeadRow>& rows) {
  insert_rows<HeadRow>(*this, "heads (kind, id, version, label, state, words, at_ms)", rows, [](Statement& to, const HeadRow& row) {
    to.bind(row.kind).bind(row.id).bind(std::int64_t{row.version}).bind(row.label).bind(row.state).bind(row.words).bind(row.at_ms);
  });
}

void Store::Inside::insert(const std::vector<IndexUse>& rows) {
  insert_rows<IndexUse>(*this, "uses (kind, id, row, at_ms, piece, furnace, program, lot)", rows, [](Statement& to, const IndexUse& row) {
    to.bind(row.kind).bind(row.id).bind(std::int64_t{row.row}).bind(row.use.at_ms);
    to.bind(row.use.piece).bind(row.use.furnace).bind(row.use.program).bind(row.use.lot);
  });
}

void Store::Inside::insert(const std::vector<IndexDue>& rows) {
  insert_rows<IndexDue>(*this, "dues (kind, id, row, due_on, what)", rows, [](Statement& to, const IndexDue& row) {
    to.bind(row.kind).bind(row.id).bind(std::int64_t{row.row}).bind(row.due.on).bind(row.due.what);
  });
}

void Store::Inside::insert(const std::vector<TallyRow>& rows) {
  insert_rows<TallyRow>(*this, "tallies (kind, state, documents)", rows,
                        [](Statement& to, const TallyRow& row) { to.bind(row.kind).bind(row.state).bind(row.documents); });
}

void Store::Inside::insert(const std::vector<Entry>& rows) {
  insert_rows<Entry>(
      *this,
      "trail (sequence, at_utc, zone, person, known_by, action, kind, id, version, document_hash, replaced_hash, reason, previous, hash)",
      rows, [](Statement& to, const Entry& row) {
        to.bind(row.sequence).bind(row.who.at_utc).bind(row.who.zone).bind(row.who.person).bind(row.who.known_by).bind(row.action);
        to.bind(row.kind).bind(row.id).bind(std::int64_t{row.version}).bind(row.document_hash).bind(row.replaced_hash);
        to.bind(row.reason).bind(row.previous).bind(row.hash);
      });
}

void Store::Inside::insert(const std::vector<PersonalRow>& rows) {
  insert_rows<PersonalRow>(*this, "personal (code, salt, body)", rows,
                           [](Statement& to, const PersonalRow& row) { to.bind(row.code).bind(row.salt).bind(row.body); });
}

void Store::Inside::insert(const std::vector<PhotoRow>& rows) {
  insert_rows<PhotoRow>(
      *this, "photos (hash, bytes_base64)", rows, [](Statement& to, const PhotoRow& row) { to.bind(row.hash).bind(row.bytes_base64); }, 1);
}

void Store::Inside::set_about(std::string_view key, std::string_view text) {
  const AboutRow row{std::string(key), sealed(key, text)};
  Statement(*this, "delete from about where key = ?").bind(row.key).run();
  insert(std::vector{row});
}

std::map<Key, Stands> what_stands(Store::Inside& inside, const std::vector<Key>& keys) {
  std::map<Key, Stands> found;
  for_keys(keys, [&](const std::string& marks, std::size_t from, std::size_t to) {
    // The newest version is asked of the documents themselves: what they are found by is derived. "cross join" has SQLite begin with
    // the names; else it reads every document there is.
    Statement statement(inside, fmt::format("with sought(kind, id) as (values {}) select d.kind, d.id, d.version, d.hash from sought cross "
                                            "join documents d where d.kind = sought.kind and d.id = sought.id and d.version = (select "
                                            "max(version) from documents each_one where each_one.kind = sought.kind and each_one.id = "
                                            "sought.id)",
                                            marks));
    for (std::size_t i = from; i < to; ++i) statement.bind(keys[i].first).bind(keys[i].second);
    Key key;
    Stands stands;
    statement.into(key.first).into(key.second).into(stands.version).into(stands.hash);
    while (statement.next()) found[key] = stands;
  });
  return found;
}

IndexRow index_of(const Store::Inside& inside, const Document& document) {
  if (!inside.opening.index_of)
    throw StoreError(StoreProblem::mistake_of_ours, "A store was opened for writing without a reader of documents: a mistake of ours.");
  IndexRow row{{document.kind, document.id}, document.version, {}};
  try {
    row.index = inside.opening.index_of(document);
  } catch (const std::exception& error) {
    throw StoreError(StoreProblem::bad_value, fmt::format("The {} \"{}\" cannot be kept, as it cannot be read back: {} Nothing was kept.",
                                                          document.kind, document.id, error.what()));
  }
  check(document, row.index);
  check_uses(document, row.index);
  return row;
}

void drop_index(Store::Inside& inside, const std::vector<Key>& keys) {
  if (keys.empty()) return;
  Tallies off;
  // SQLite does not use its index for a list of pairs.
  if (inside.sqlite()) {
    for (const Key& key : keys) {
      Statement heads(inside, "delete from heads where kind = ? and id = ? returning kind, state");
      drop_heads(heads.bind(key.first).bind(key.second), off);
    }
  } else {
    for_keys(keys, [&](const std::string& marks, std::size_t from, std::size_t to) {
      Statement heads(inside, fmt::format("delete from heads where (kind, id) in (values {}) returning kind, state", marks));
      for (std::size_t i = from; i < to; ++i) heads.bind(keys[i].first).bind(keys[i].second);
      drop_heads(heads, off);
    });
  }
  for (const std::string_view table : {"uses", "dues"}) {
    if (inside.found.format < 2 && table == "dues") continue;
    if (inside.sqlite()) {
      Statement statement(inside, fmt::format("delete from {} where kind = ? and id = ?", table));
      for (const Key& key : keys) statement.bind(key.first).bind(key.second).run();
      continue;
    }
    for_keys(keys, [&](const std::string& marks, std::size_t from, std::size_t to) {
      Statement statement(inside, fmt::format("delete from {} where (kind, id) in (values {})", table, marks));
      for (std::size_t i = from; i < to; ++i) statement.bind(keys[i].first).bind(keys[i].second);
      statement.run();
    });
  }
  tally(inside, off);
}

void put_index(Store::Inside& inside, const std::vector<IndexRow>& rows) {
  std::vector<HeadRow> heads;
  std::vector<IndexUse> uses;
  std::vector<IndexDue> dues;
  Tallies more;
  for (const auto& [key, version, index] : rows) {
    ++more[{key.first, index.state}];
    heads.push_back({key.first, key.second, version, index.label, index.state, index.words, index.at_ms});
    int row = 0;
    for (const Use& use : index.uses) uses.push_back({key.first, key.second, ++row, use});
    row = 0;
    for (const Due& due : index.dues) dues.push_back({key.first, key.second, ++row, due});
  }
  inside.insert(heads);
  inside.insert(uses);
  if (inside.found.format >= 2) inside.insert(dues);
  tally(inside, more);
}

}  // namespace heatwork::records
