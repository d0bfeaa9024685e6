// The single writings a change is made of, apart from each other; keep() joins them in one transaction.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "records/inside.h"

namespace heatwork::records {

using Key = std::pair<std::string, std::string>;  ///< kind, id

/// Version and hash of the newest version.
struct Stands {
  int version = 0;
  std::string hash;
};

/// What stands of these documents; one that does not stand is left out.
std::map<Key, Stands> what_stands(Store::Inside& inside, const std::vector<Key>& keys);

/// What a document is found by, with the document it is of.
struct IndexRow {
  Key key;
  int version = 0;
  Index index;
};
/// Errors: StoreError bad_value where the bytes cannot be read, or name a piece twice with one furnace, program or lot.
IndexRow index_of(const Store::Inside& inside, const Document& document);

/// Takes away what documents are found by, and takes them off the tallies.
void drop_index(Store::Inside& inside, const std::vector<Key>& keys);
/// Puts it in where there is none, and counts it.
void put_index(Store::Inside& inside, const std::vector<IndexRow>& rows);

}  // namespace heatwork::records
