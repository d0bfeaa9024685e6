// The one way in which a store's rows are put into another one, and the proof that they arrived.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "records/backup.h"
#include "records/inside.h"
#include "records/progress.h"

namespace heatwork::records {

/// Rows on their way, put in many at a stroke.
template <class Row>
class Lot {
 public:
  explicit Lot(Store::Inside& to) : to_(to) {}
  void put(Row row, std::size_t bytes) {
    rows_.push_back(std::move(row));
    bytes_ += bytes;
    if (rows_.size() >= most_rows || bytes_ >= most_bytes) end();
  }
  void end() {
    if (!rows_.empty()) to_.insert(rows_);
    rows_.clear();
    bytes_ = 0;
  }

 private:
  static constexpr std::size_t most_rows = 1000, most_bytes = 4'000'000;
  Store::Inside& to_;
  std::vector<Row> rows_;
  std::size_t bytes_ = 0;
};

/// Every row of every table of the format the first one has, as it is. The one is inside a view or transaction, the other a new store or
/// inside a transaction.
void copy_rows(Store::Inside& from, Store::Inside& to, Progress& progress);
/// Rows that copy_rows goes through.
std::int64_t rows_to_copy(Store::Inside& inside);

/// Copies into a new store and proves it there: whole, and with the same export as the one it came from. It is not put in place yet.
Copied copy_and_prove(Store::Inside& from, NewStore& to, const Watch& watch);

/// Errors: StoreError damaged with the first thing that is wrong; `what` names the store in the sentence.
void prove_whole(Store& store, const std::string& what, const Watch& watch);

}  // namespace heatwork::records
