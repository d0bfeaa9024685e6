// Proof of what a document is found by: computed from its bytes again and compared column by column.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "records/findings.h"
#include "records/rows.h"
#include "records/store.h"

namespace heatwork::records {

/// The index rows that stand under one kind and id.
struct IndexRows {
  std::optional<HeadRow> head;
  std::vector<IndexUse> uses;
  std::vector<IndexDue> dues;
};

/// The sequence is that of the entry that kept the newest version.
void prove_index(const Document& newest, std::int64_t sequence, const IndexRows& rows, const IndexOf& index_of, Findings& findings);

}  // namespace heatwork::records
