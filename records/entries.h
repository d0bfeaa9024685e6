// Entries of the trail read from the store.
#pragma once

#include <vector>

#include "records/statement.h"

namespace heatwork::records {

inline constexpr std::string_view entry_columns =
    "sequence, at_utc, zone, person, known_by, action, kind, id, version, document_hash, replaced_hash, reason, previous, hash";

/// Binds the columns above to an entry.
void into(Statement& statement, Entry& entry);

}  // namespace heatwork::records
