// Tables as their rows lie on the disk, which is as they came: the way to read much at the speed of the disk. The tables of
// records/inside.h come in order of their keys instead.
#pragma once

#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

#include "records/inside.h"

namespace heatwork::records {

/// Hands out a table in pages of some megabytes at most. Inside a view. Errors: StoreError damaged.
template <class Row>
class StoredPages {
 public:
  using Fetch = std::function<bool(std::vector<Row>& page)>;  ///< false: no row is left
  explicit StoredPages(Fetch fetch) : fetch_(std::move(fetch)) {}
  /// Empty: the end.
  std::vector<Row> next() {
    std::vector<Row> page;
    while (page.empty() && fetch_(page)) continue;
    return page;
  }

 private:
  Fetch fetch_;
};

StoredPages<Document> stored_documents(Store::Inside& inside);
StoredPages<HeadRow> stored_heads(Store::Inside& inside);
StoredPages<IndexUse> stored_uses(Store::Inside& inside);
StoredPages<IndexDue> stored_dues(Store::Inside& inside);
StoredPages<PersonalRow> stored_personals(Store::Inside& inside);
StoredPages<PhotoRow> stored_photos(Store::Inside& inside);

}  // namespace heatwork::records
