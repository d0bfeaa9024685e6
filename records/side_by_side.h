// The exact proof of what the tables hold, name by name: says what is wrong with each, and by which entry that is known.
#pragma once

#include <cstdint>
#include <optional>

#include "records/document_proof.h"
#include "records/index_proofs.h"
#include "records/inside.h"
#include "records/side_rows.h"

namespace heatwork::records {

/// What the index says goes to `index_proofs`, to be ended by whoever made it. Errors: StoreError where the rows cannot be read to their
/// end; what was found before counts.
DocumentProof walk_side_by_side(SideRows rows, std::optional<std::int64_t> first_broken, IndexProofs& index_proofs, Findings& findings,
                                const Progress& progress);

}  // namespace heatwork::records
