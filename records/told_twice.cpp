#include "records/told_twice.h"

#include <exception>

#include "records/inside.h"

namespace heatwork::records {

namespace {

Fact version_fact(const std::string& kind, const std::string& id, std::int64_t version, const std::string& hash) {
  return Fact('v', kind, id).value(version).value(hash);
}
Fact fact_of(const HeadRow& row) {
  return Fact('h', row.kind, row.id).value(std::int64_t{row.version}).value(row.label).value(row.state).value(row.words).value(row.at_ms);
}
Fact fact_of(const std::string& kind, const std::string& id, int row, const Use& use) {
  return Fact('u', kind, id)
      .value(std::int64_t{row})
      .value(use.at_ms)
      .value(use.piece)
      .value(use.furnace)
      .value(use.program)
      .value(use.lot);
}
Fact fact_of(const std::string& kind, const std::string& id, int row, const Due& due) {
  return Fact('d', kind, id).value(std::int64_t{row}).value(due.on).value(due.what);
}

bool is_no_document(const std::string& kind) {
  return kind == store_kind || kind == personal_kind || kind == photo_kind;
}

}  // namespace

bool is_photo(const PhotoRow& row) {
  try {
    return photo_hash(bytes_of(row)) == row.hash;
  } catch (const StoreError&) {
    return false;
  }
}

void ToldByTrail::take(const Entry& entry) {
  if (entry.kind == store_kind) return;
  if (entry.kind == personal_kind) return take_other(entry, personal_erased);
  if (entry.kind == photo_kind) return take_other(entry, photo_erased);
  take_document(entry);
}

/// Each version follows the one that was the newest until then.
void ToldByTrail::take_document(const Entry& entry) {
  const Digest digest = balance_.take_off(version_fact(entry.kind, entry.id, entry.version, entry.document_hash));
  const bool follows = entry.version == 1
                           ? entry.replaced_hash.empty()
                           : newest_.erase(balance_.digest(version_fact(entry.kind, entry.id, entry.version - 1, entry.replaced_hash))[0]);
  if (!newest_.insert(digest[0]) || !follows || entry.version < 1) balance_.suspect(entry.kind, entry.id);
}

/// Of what was kept and replaced or erased again nothing is left over.
void ToldByTrail::take_other(const Entry& entry, const char* erased) {
  if ((entry.action == erased) != entry.document_hash.empty()) balance_.suspect(entry.kind, entry.id);
  if (!entry.document_hash.empty()) balance_.take_off(version_fact(entry.kind, entry.id, 0, entry.document_hash));
  if (!entry.replaced_hash.empty()) balance_.add(version_fact(entry.kind, entry.id, 0, entry.replaced_hash));
}

void ToldByTables::take(const Document& row) {
  const std::string hash = document_hash(row);
  const Digest digest = balance_.add(version_fact(row.kind, row.id, row.version, hash));
  if (hash != row.hash || is_no_document(row.kind)) balance_.suspect(row.kind, row.id);
  if (newest_.contains(digest[0])) take_index(row);
}

void ToldByTables::take_index(const Document& newest) {
  try {
    const Index index = index_of_(newest);
    balance_.add(fact_of(HeadRow{newest.kind, newest.id, newest.version, index.label, index.state, index.words, index.at_ms}));
    int number = 0;
    for (const Use& use : index.uses) balance_.add(fact_of(newest.kind, newest.id, ++number, use));
    number = 0;
    for (const Due& due : index.dues) balance_.add(fact_of(newest.kind, newest.id, ++number, due));
  } catch (const std::exception&) {
    balance_.suspect(newest.kind, newest.id);
  }
}

void ToldByTables::take(const HeadRow& row) {
  balance_.take_off(fact_of(row));
  ++tallies_[{row.kind, row.state}];
}
void ToldByTables::take(const IndexUse& row) {
  balance_.take_off(fact_of(row.kind, row.id, row.row, row.use));
}
void ToldByTables::take(const IndexDue& row) {
  balance_.take_off(fact_of(row.kind, row.id, row.row, row.due));
}
void ToldByTables::take(const PersonalRow& row) {
  balance_.add(version_fact(personal_kind, row.code, 0, personal_hash(row)));
}
void ToldByTables::take(const PhotoRow& row) {
  balance_.add(version_fact(photo_kind, row.hash, 0, row.hash));
  if (!is_photo(row)) balance_.suspect(photo_kind, row.hash);
}

}  // namespace heatwork::records
