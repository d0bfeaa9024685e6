// Proof of the trail: entries without a gap, each sealed and tied to the one before; and of what the store says of itself.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "records/findings.h"
#include "records/inside.h"
#include "records/progress.h"

namespace heatwork::records {

struct ChainProof {
  std::int64_t entries = 0;
  std::string head;         ///< hash of the newest entry
  bool head_found = false;  ///< the hash sought is that of an entry
  /// The first entry that is missing or not as it was kept; what the trail says of a thing may be another entry's loss from there on.
  std::optional<std::int64_t> first_broken;
};

/// Inside a view; hands every entry out too. Errors: StoreError where the trail cannot be read to its end.
ChainProof prove_chain(Store::Inside& inside, const std::string& head_sought, const std::function<void(const Entry&)>& take,
                       Findings& findings, Progress& progress);

/// Walks the chain up to an entry. True where it carries this hash there.
bool stands_in_chain(Store::Inside& inside, std::int64_t sequence, const std::string& hash);

}  // namespace heatwork::records
