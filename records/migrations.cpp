#include "records/migrations.h"

#include <fmt/format.h>

#include <filesystem>

#include "records/connection.h"
#include "records/new_store.h"
#include "records/schema.h"
#include "records/transaction.h"
#include "records/values.h"
#include "records/writing.h"

namespace heatwork::records {

namespace {

constexpr std::size_t rows_at_a_stroke = 500;

template <class Row>
void copy(Rows<Row> rows, Store::Inside& to) {
  std::vector<Row> some;
  while (const Row* row = rows.next()) {
    some.push_back(*row);
    if (some.size() < rows_at_a_stroke) continue;
    to.insert(some);
    some.clear();
  }
  to.insert(some);
}

/// What documents are found by is written anew: a new format may find them by more.
void index_anew(Store::Inside& inside) {
  std::vector<IndexRow> rows;
  std::vector<Key> keys;
  const auto write = [&] {
    drop_index(inside, keys);
    put_index(inside, rows);
    keys.clear();
    rows.clear();
  };
  const auto take = [&](const Document& newest) {
    if (document_hash(newest) != newest.hash)
      throw StoreError(StoreProblem::damaged,
                       fmt::format("The store {} cannot be brought to format {}: version {} of the {} \"{}\" is damaged. Nothing was "
                                   "changed; restore a backup.",
                                   inside.address.shown(), store_format, newest.version, newest.kind, newest.id));
    rows.push_back(index_of(inside, newest));
    keys.emplace_back(newest.kind, newest.id);
    if (rows.size() >= rows_at_a_stroke) write();
  };
  auto documents = inside.documents();
  std::optional<Document> newest;
  while (const Document* next = documents.next()) {
    if (newest && (newest->kind != next->kind || newest->id != next->id)) take(*newest);
    newest = *next;
  }
  if (newest) take(*newest);
  write();
}

void step_to(Store::Inside& inside, int format) {
  for (const std::string& statement : statements_of_step(format, inside.address.engine)) inside.run(statement);
  const int before = inside.found.format;
  inside.found.format = format;
  index_anew(inside);
  inside.set_about("format", std::to_string(format));
  inside.append({0, inside.opening.who, "migrated", "store", inside.found.store_id, format, "", "",
                 fmt::format("from format {} to format {}", before, format), "", ""});
}

/// "lab.sqlite" becomes "lab.before-format-2.sqlite", or with a number where that stands already.
std::string free_name(const std::filesystem::path& folder, const std::string& stem) {
  for (int number = 1;; ++number) {
    const std::string counted = number == 1 ? "" : fmt::format("-{}", number);
    const auto path = folder / fmt::format("{}.before-format-{}{}.sqlite", stem, store_format, counted);
    if (!std::filesystem::exists(path)) return path.string();
  }
}

/// While the writers' lock is held, so that the copy is the store as it is before the first step. Through a connection of its own
/// where it is SQLite: a copy cannot be made from within a transaction.
std::string copy_before(Store::Inside& inside) {
  std::string path;
  if (inside.sqlite()) {
    const std::filesystem::path file(inside.address.where);
    path = free_name(file.parent_path(), file.stem().string());
  } else {
    if (inside.opening.copies_folder.empty())
      throw StoreError(StoreProblem::too_old,
                       fmt::format("The store {} is of format {} and would be brought to format {}, but no folder is named for the copy "
                                   "that is made before. Nothing was changed.",
                                   inside.address.shown(), inside.found.format, store_format));
    path = free_name(inside.opening.copies_folder, inside.found.store_id);
  }
  Opening opening = inside.opening;
  opening.make = true;
  NewFile copy({Engine::sqlite, path}, opening);
  begin_writing(copy.inside());
  make_tables(copy.inside(), inside.found.format);
  if (inside.sqlite()) {
    Store::Inside reader;
    reader.address = inside.address;
    reader.opening = inside.opening;
    reader.found = inside.found;
    copy_rows(reader, copy.inside(), inside.found.format);
  } else {
    copy_rows(inside, copy.inside(), inside.found.format);
  }
  commit(copy.inside());
  copy.put_in_place();
  return path;
}

}  // namespace

void copy_rows(Store::Inside& from, Store::Inside& to, int format) {
  ReadingView view(from);
  copy(from.abouts(), to);
  copy(from.documents(), to);
  copy(from.head_rows(), to);
  copy(from.index_uses(), to);
  if (format >= 2) copy(from.index_dues(), to);
  copy(from.entries(), to);
  copy(from.personals(), to);
  for (auto photos = from.photos(); const PhotoRow* row = photos.next();) to.insert(std::vector{*row});
}

void migrate(Store::Inside& inside) {
  check(inside.opening.who);
  WriteTransaction writing(inside);
  inside.found.copy_before_migration = copy_before(inside);
  while (inside.found.format < store_format) step_to(inside, inside.found.format + 1);
  writing.commit();
  inside.found.migrated = true;
}

}  // namespace heatwork::records
