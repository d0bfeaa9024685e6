// Very much kept at one go into a store of its own: what rows are found by is sorted once at the end instead of at every row.
#pragma once

#include <string>
#include <vector>

#include "records/store.h"
#include "tests/store/many.h"

namespace heatwork::store_proof {

class BulkLoad {
 public:
  /// Takes the store's further indexes away. Nothing is safe from a crash until `finish`.
  explicit BulkLoad(records::Store& store);
  /// Puts them back as they were, and lets the engine learn what it holds. Open the store anew behind it.
  void finish();

 private:
  records::Store& store_;
  std::vector<std::string> indexes_;  ///< statements that make them
};

/// Makes a store of these years where none stands. What the documents are found by is known to their generator; `verify` reads each of
/// them as desk does and compares.
void fill(const records::Address& address, ManyYears& years);

}  // namespace heatwork::store_proof
