// The strip of stress: the highest tension of each piece's glass as it cools, on the tray and on the bench, and the limits for it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/strips.h"

namespace heatwork::report {

/// Nothing where stress was not asked for. `names`: of the pieces drawn.
std::optional<Strip> stress_strip(const firing::Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                  const Numbers& numbers);
/// The place of the strip while its numbers are still being computed.
Strip stress_follows(const Numbers& numbers);

}  // namespace heatwork::report
