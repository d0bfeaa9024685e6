// The rows of the store's tables as they stand there, and a way to walk through a table in its fixed order without holding it in memory.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "records/document.h"
#include "records/trail.h"

namespace heatwork::records {

struct AboutRow {
  std::string key, value;  ///< the value as it stands there, with its seal
};
struct HeadRow {
  std::string kind, id;
  int version = 0;
  std::string label, state, words;
  std::int64_t at_ms = 0;
};
struct IndexUse {
  std::string kind, id;
  int row = 0;  ///< from 1, in the order the index gives
  Use use;
};
struct IndexDue {
  std::string kind, id;
  int row = 0;  ///< from 1, in the order the index gives
  Due due;
};
struct TallyRow {
  std::string kind, state;
  std::int64_t documents = 0;  ///< whose newest version is of this state
};
struct PersonalRow {
  std::string code, salt, body;  ///< salt: 64 hexadecimal digits
};
struct PhotoRow {
  std::string hash, bytes_base64;
};

/// Walks through a table, fetching a page at a time. Only inside a ReadingView or a WriteTransaction are all pages of one moment.
///   for (auto rows = inside.documents(); const Document* row = rows.next();) ...
template <class Row>
class Rows {
 public:
  /// Gives the rows after the one handed in (null: from the start); none: the end.
  using Fetch = std::function<std::vector<Row>(const Row* after)>;
  explicit Rows(Fetch fetch) : fetch_(std::move(fetch)) {}

  /// The next row, good until the next call; null at the end.
  const Row* next() {
    if (at_ + 1 < page_.size()) return &page_[++at_];
    if (ended_) return nullptr;
    std::vector<Row> following = fetch_(page_.empty() ? nullptr : &page_.back());
    at_ = 0;
    page_ = std::move(following);
    ended_ = page_.empty();
    return ended_ ? nullptr : &page_.front();
  }

 private:
  Fetch fetch_;
  std::vector<Row> page_;
  std::size_t at_ = 0;
  bool ended_ = false;
};

}  // namespace heatwork::records
