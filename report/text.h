// A rehearsal as text for people at a terminal: the first finding on top, then the others, then numbers, assumptions and sources.
#pragma once

#include <string>

#include "firing/rehearsal.h"
#include "report/number.h"
#include "verdict/finding.h"

namespace heatwork::report {

struct TextOptions {
  bool colour = false;       ///< bold and faint; never the only sign of anything
  bool plain_ascii = false;  ///< for a terminal that shows ASCII alone
  bool strip = true;         ///< with the small picture
  TemperatureScale scale = TemperatureScale::celsius;
};

/// At most 100 columns. Levels are words; the same rehearsal gives the same bytes.
std::string rehearsal_text(const firing::Rehearsal& rehearsal, const verdict::Verdict& verdict, const trade::Words& words,
                           const TextOptions& options = {});

}  // namespace heatwork::report
