// The checks of a furnace that a store keeps, as the checks after them see them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "furnace_care/known_error.h"
#include "furnace_care/temperature_line.h"
#include "records/store.h"
#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::desk {

struct KeptCheck {
  trade::Check check;
  std::int64_t at_ms = 0;
};

/// Finished ones, newest first, back to and with the newest that came after a repair: what was before tells nothing of it any more.
std::vector<KeptCheck> checks_since_repair(records::Store& store, const std::string& furnace);

/// Names of the checks of that kind that were begun and not finished, newest first.
std::vector<std::string> checks_going_on(records::Store& store, const std::string& furnace, trade::CheckOf of);

/// The newest that found an error of the display.
std::optional<furnace_care::EarlierError> earlier_error(const std::vector<KeptCheck>& checks, const trade::Furnace& furnace,
                                                        std::int64_t now_ms);

/// Errors that other checks found, and which of their means this check is done with.
struct OthersFound {
  std::vector<furnace_care::ErrorFound> errors;
  int means_of_this = 0;
};

/// Those by wire and thermocouple within the last two months and since the last adjustment, under the very correction that is keyed now;
/// `check` itself is left out, and as left it stands alone. Wires of one metal, and one thermocouple, share what is unsure of them.
OthersFound others_found(const std::vector<KeptCheck>& checks, const trade::Furnace& furnace, double keyed_now_K, std::int64_t now_ms,
                         const trade::Check& check);

/// The kind of check, "temperature" or "thermocouple", whose newest good one is the newest.
std::string kind_of_last_good(const std::vector<KeptCheck>& checks);

}  // namespace heatwork::desk
