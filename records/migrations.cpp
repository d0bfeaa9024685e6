#include "records/migrations.h"

#include <fmt/format.h>

#include <filesystem>

#include "records/connection.h"
#include "records/copy.h"
#include "records/durable.h"
#include "records/new_store.h"
#include "records/schema.h"
#include "records/transaction.h"
#include "records/values.h"
#include "records/writing.h"

namespace heatwork::records {

namespace {

constexpr std::size_t rows_at_a_stroke = 500;

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
  if (format == 3) inside.run("insert into tallies (kind, state, documents) select kind, state, count(*) from heads group by kind, state");
  const int before = inside.found.format;
  inside.found.format = format;
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

/// Through a connection of its own: SQLite makes no copy from within a transaction. That one still keeps every writer out.
std::string copy_of_file(const Store::Inside& inside) {
  const std::filesystem::path file(file_of(inside.address));
  const std::string path = free_name(file.parent_path(), file.stem().string());
  const std::string part = path + std::string(unfinished);
  Store::Inside reader;
  reader.address = inside.address;
  reader.opening = inside.opening;
  take_away(part);
  reader.vacuum_into(part);
  sync_file(part);
  give_name(part, path);
  sync_folder_of(path);
  return path;
}

std::string copy_of_database(Store::Inside& inside) {
  if (inside.opening.copies_folder.empty())
    throw StoreError(StoreProblem::too_old,
                     fmt::format("The store {} is of format {} and would be brought to format {}, but no folder is named for the copy "
                                 "that is made before. Nothing was changed.",
                                 inside.address.shown(), inside.found.format, store_format));
  const std::string path = free_name(inside.opening.copies_folder, "store-" + inside.found.store_id);
  NewFile copy({Engine::sqlite, path}, inside.opening);
  begin_writing(copy.inside());
  make_tables(copy.inside(), inside.found.format);
  Progress unwatched({}, 0);
  copy_rows(inside, copy.inside(), unwatched);
  commit(copy.inside());
  copy.put_in_place();
  return path;
}

}  // namespace

void migrate(Store::Inside& inside) {
  check(inside.opening.who);
  WriteTransaction writing(inside);
  // Under the writers' lock: the copy is the store as it is before the first step.
  inside.found.copy_before_migration = inside.sqlite() ? copy_of_file(inside) : copy_of_database(inside);
  while (inside.found.format < store_format) step_to(inside, inside.found.format + 1);
  index_anew(inside);
  writing.commit();
  inside.found.migrated = true;
}

}  // namespace heatwork::records
