// The numbers of a rehearsal as a table: a quantity a row, a piece a column.
#pragma once

#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "report/number.h"

namespace heatwork::report {

struct TableRow {
  std::string what;
  std::vector<std::string> by_piece;
};

/// Rows that say something of at least one piece, in the order of a firing; "-" where a quantity does not apply to a piece.
std::vector<TableRow> numbers_of(const firing::Rehearsal& rehearsal, const Numbers& numbers);

}  // namespace heatwork::report
