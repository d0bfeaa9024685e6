// An entry of the trail as answers tell it.
#pragma once

#include <string>
#include <string_view>

#include "desk/json_value.h"
#include "records/trail.h"

namespace heatwork::desk {

/// When, who, what was done and why; sequence first.
JsonObject entry_as_json(const records::Entry& entry);

/// "2026-11-25 18:11", in the zone of the lab.
std::string local_time_of(const records::Entry& entry, std::string_view zone);

}  // namespace heatwork::desk
