// By the clock: when the chamber of a firing that was started is expected to open, and between which times.
#pragma once

#include <optional>
#include <string>

#include "records/store.h"
#include "trade/firing.h"

namespace heatwork::desk {

struct ExpectedOpen {
  std::string expected, earliest, latest;  ///< UTC, whole minutes; the range outwards, a minute at least to either side
};

/// By the texts it was started with. Absent of one that does not run, and where its furnace cannot run its program or its texts cannot be
/// read any more: today's list is not held up by that.
std::optional<ExpectedOpen> expected_open(records::Store& store, const trade::Firing& firing);

}  // namespace heatwork::desk
