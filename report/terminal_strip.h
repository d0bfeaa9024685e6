// A small picture of a firing for the terminal: display and core over time, and the moments in words under it; and how the glass cools.
#pragma once

#include <cstddef>
#include <string>

#include "firing/rehearsal.h"
#include "report/number.h"

namespace heatwork::report {

struct TerminalStripOptions {
  std::size_t columns = 100;
  std::size_t rows = 7;
  bool plain_ascii = false;  ///< letters and signs of ASCII alone, else dots of Braille
};

/// Lines of at most `columns` signs, each ended by a line feed. Every moment of the rehearsal stands in it in words.
/// Where stress was computed, the tension of one piece's glass follows under it.
/// Errors: std::invalid_argument where there are under 40 columns or no rows.
std::string terminal_strip(const firing::Rehearsal& rehearsal, const Numbers& numbers, const TerminalStripOptions& options = {});

}  // namespace heatwork::report
