// The kept checks of one furnace, read from the store.
#pragma once

#include <string>
#include <vector>

#include "records/store.h"
#include "trade/records.h"

namespace heatwork::desk {

/// The finished checks of a furnace in order of time, oldest first; what happened at one moment in order of name. Errors: Failure
/// unknown_name where the store keeps neither the furnace nor a check of it; trade::Mistake where one cannot be read.
std::vector<trade::Check> checks_of_furnace(records::Store& store, const std::string& furnace);

}  // namespace heatwork::desk
