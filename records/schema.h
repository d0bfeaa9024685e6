// The tables, in numbered steps from nothing to the current format: the one way tables are made, for a fresh store and for an old one.
#pragma once

#include <string>
#include <vector>

#include "records/inside.h"

namespace heatwork::records {

/// Statements of the step that makes a format of the one before.
std::vector<std::string> statements_of_step(int to_format, Engine engine);

/// The tables of a format, empty. Inside a transaction.
void make_tables(Store::Inside& inside, int format);

}  // namespace heatwork::records
