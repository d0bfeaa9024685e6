// A walk through a table that insists on its order: damage may mix rows up, and then a walk could go on for ever or leave rows out.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "records/rows.h"
#include "records/store_error.h"

namespace heatwork::records {

using RowKey = std::tuple<std::string, std::string, std::int64_t>;

inline RowKey key_of(const AboutRow& row) {
  return {row.key, "", 0};
}
inline RowKey key_of(const Document& row) {
  return {row.kind, row.id, row.version};
}
inline RowKey key_of(const HeadRow& row) {
  return {row.kind, row.id, 0};
}
inline RowKey key_of(const IndexUse& row) {
  return {row.kind, row.id, row.row};
}
inline RowKey key_of(const IndexDue& row) {
  return {row.kind, row.id, row.row};
}
inline RowKey key_of(const TallyRow& row) {
  return {row.kind, row.state, 0};
}
inline RowKey key_of(const Entry& row) {
  return {"", "", row.sequence};
}
inline RowKey key_of(const PersonalRow& row) {
  return {row.code, "", 0};
}
inline RowKey key_of(const PhotoRow& row) {
  return {row.hash, "", 0};
}
/// Entries walked through document by document.
inline RowKey key_by_document(const Entry& row) {
  return {row.kind, row.id, row.sequence};
}

template <class Row>
class InOrder {
 public:
  using Key = RowKey (*)(const Row&);
  explicit InOrder(
      Rows<Row> rows, const char* table, Key key = [](const Row& row) { return key_of(row); })
      : rows_(std::move(rows)), table_(table), key_(key) {}

  /// The next row, good until the next call; null at the end. Errors: StoreError damaged.
  const Row* next() {
    const Row* row = rows_.next();
    if (row == nullptr) return nullptr;
    RowKey key = key_(*row);
    if (last_ && !(*last_ < key)) {
      throw StoreError(StoreProblem::damaged, "The store is damaged: the rows of its table “" + std::string(table_) +
                                                  "” do not stand in their order near “" + std::get<0>(key) + " " + std::get<1>(key) +
                                                  "” (" + std::to_string(std::get<2>(key)) + ").");
    }
    last_ = std::move(key);
    return row;
  }

 private:
  Rows<Row> rows_;
  const char* table_;
  Key key_;
  std::optional<RowKey> last_;
};

}  // namespace heatwork::records
