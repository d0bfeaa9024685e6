// Proof of an SQLite file below its rows: pages, indexes, and the description of the tables.
#pragma once

#include "records/findings.h"
#include "records/inside.h"

namespace heatwork::records {

/// Inside a view; does nothing for PostgreSQL. Damage that stops the reading is a finding too.
void prove_file(Store::Inside& inside, Findings& findings);

}  // namespace heatwork::records
