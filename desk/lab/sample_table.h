// Readings over time from a table that a furnace, a gauge or a spreadsheet wrote, as the texts a check keeps them by.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace heatwork::desk {

struct SampleTable {
  std::vector<std::string> samples;  ///< "30 s, 300 mbar", the first at 0 s
  std::string furnace;               ///< that a column of that name says; empty: none does
};

/// One header line, then a row a reading: a column that begins with "time", one more for what was shown, units in the header as in
/// "time (s)" or behind each number; cells parted by comma, semicolon or tab, a decimal comma where that is no comma. A column "furnace"
/// says whose it is. Errors: Failure bad_file, "NAME, line 7: what, what is allowed."
SampleTable read_sample_table(std::string_view name, std::string_view text);

}  // namespace heatwork::desk
