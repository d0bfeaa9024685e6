#include "records/copy.h"

#include <fmt/format.h>

#include "records/export_view.h"
#include "records/in_order.h"
#include "records/verify.h"

namespace heatwork::records {

namespace {

std::size_t bytes_in(const Document& row) {
  return row.body.size() + row.typed.size();
}
std::size_t bytes_in(const PhotoRow& row) {
  return row.bytes_base64.size();
}
std::size_t bytes_in(const PersonalRow& row) {
  return row.body.size();
}
template <class Row>
std::size_t bytes_in(const Row& /*row*/) {
  return 0;  // small; the number of rows bounds the lot
}

template <class Row>
void copy_table(Rows<Row> all, const char* name, Store::Inside& to, Progress& progress) {
  InOrder<Row> rows(std::move(all), name);
  Lot<Row> lot(to);
  while (const Row* row = rows.next()) {
    lot.put(*row, bytes_in(*row));
    progress.step();
  }
  lot.end();
}

}  // namespace

void copy_rows(Store::Inside& from, Store::Inside& to, Progress& progress) {
  copy_table(from.abouts(), "about", to, progress);
  copy_table(from.documents(), "documents", to, progress);
  copy_table(from.head_rows(), "heads", to, progress);
  copy_table(from.index_uses(), "uses", to, progress);
  if (from.found.format >= 2) copy_table(from.index_dues(), "dues", to, progress);
  if (from.found.format >= 3) copy_table(from.tallies(), "tallies", to, progress);
  copy_table(from.entries(), "trail", to, progress);
  copy_table(from.personals(), "personal", to, progress);
  copy_table(from.photos(), "photos", to, progress);
  progress.tell();
}

std::int64_t rows_to_copy(Store::Inside& inside) {
  std::int64_t rows = 0;
  for (const char* table : {"about", "documents", "heads", "uses", "dues", "tallies", "trail", "personal", "photos"})
    rows += inside.count(table);
  return rows;
}

Copied copy_and_prove(Store::Inside& from, NewStore& to, const Watch& watch) {
  Progress progress(watch, watch ? rows_to_copy(from) : 0);
  copy_rows(from, to.inside(), progress);
  prove_whole(to.store(), "The new copy at " + to.inside().address.shown(), watch);
  Copied copied;
  copied.export_hash = export_in_view(from, {}, watch);
  if (export_in_view(to.inside(), {}, watch) != copied.export_hash) {
    throw StoreError(StoreProblem::damaged,
                     fmt::format("The copy at {} is not the same as the store; it was taken away again.", to.inside().address.shown()));
  }
  copied.documents = to.inside().count("documents");
  copied.entries = to.inside().count("trail");
  const std::optional<Entry> newest = to.inside().newest_entry();
  copied.head = newest ? newest->hash : "";
  return copied;
}

void prove_whole(Store& store, const std::string& what, const Watch& watch) {
  const Verified verified = verify(store, {"", watch});
  if (verified.stopped) throw Progress::Stopped();
  if (verified.wrong.empty()) return;
  const std::size_t more = verified.wrong.size() - 1;
  throw StoreError(StoreProblem::damaged, fmt::format("{} is damaged. {}{}", what, verified.wrong.front(),
                                                      more == 0 ? "" : fmt::format(" And {} more; \"store verify\" tells them.", more)));
}

}  // namespace heatwork::records
