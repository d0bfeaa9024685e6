// Proof of documents, photos and personal data against the trail, and of what documents are found by against their texts.
#pragma once

#include <cstdint>
#include <optional>

#include "records/findings.h"
#include "records/inside.h"
#include "records/progress.h"
#include "records/told_twice.h"

namespace heatwork::records {

struct DocumentProof {
  std::int64_t documents = 0, photos = 0, persons = 0;
  std::int64_t one_by_one = 0;  ///< names that were looked at one by one
};

/// What the proof of the trail leaves for that of the documents.
struct TrailRead {
  explicit TrailRead(const DigestKey& drawn) : key(drawn), told(drawn) {}
  DigestKey key;
  ToldByTrail told;
  bool whole = false;  ///< it was read to its end
  std::optional<std::int64_t> first_broken;
};

/// Inside a view. One pass through each table as it lies on the disk proves a sound store, in some 200 MB at ten million documents; only
/// names that do not balance are then looked at one by one. Errors: StoreError where the tables cannot be read to their end; what was
/// found before counts.
DocumentProof prove_documents(Store::Inside& inside, const TrailRead& trail, Findings& findings, Progress& progress);

}  // namespace heatwork::records
