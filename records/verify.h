// Proof that nothing kept was altered: hashes, chain and what documents are found by, all computed again.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "records/store.h"

namespace heatwork::records {

/// How far long work has come; returns false to stop it.
using Watch = std::function<bool(std::int64_t done, std::int64_t all)>;

struct VerifyAsked {
  std::string head;  ///< a hash that was printed once and must still stand in the chain; empty: none
  Watch watch;
};

struct Verified {
  std::vector<std::string> wrong;  ///< a sentence each, first that of lowest sequence; empty: nothing was altered. At most 20.
  std::int64_t documents = 0, entries = 0, photos = 0, persons = 0;
  std::int64_t one_by_one = 0;  ///< names that one pass through the tables did not prove; of a sound store none, but for one in 2^128
  std::string head;
  bool stopped = false;
};

/// Reads everything in one consistent view. Errors: StoreError where the store cannot be read at all.
Verified verify(Store& store, const VerifyAsked& asked = {});

}  // namespace heatwork::records
