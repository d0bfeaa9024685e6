// Proof of what the trail speaks of: every document, photo and person's data against its entries, and every index row against its document.
#pragma once

#include <cstdint>
#include <optional>

#include "records/findings.h"
#include "records/inside.h"
#include "records/progress.h"

namespace heatwork::records {

struct DocumentProof {
  std::int64_t documents = 0, photos = 0, persons = 0;
};

/// Walks all tables side by side, a document at a time, so that a store of any size needs the same memory. Inside a view.
/// `first_broken` is the entry from which on the trail itself is not as it was. Errors: StoreError where a table cannot be read to its end.
DocumentProof prove_documents(Store::Inside& inside, std::optional<std::int64_t> first_broken, Findings& findings, Progress& progress);

}  // namespace heatwork::records
