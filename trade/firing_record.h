// The field table of what became of a firing, and what its values must be together. Included by the field tables' own sources only.
#pragma once

#include "trade/field.h"
#include "trade/firing.h"

namespace heatwork::trade {

void describe_record(Fields& fields, FiringRecord& record);

/// Of a firing that has a record. Errors: Mistake.
void check_record(const Firing& firing);

/// Where a text was written, or, where that is not known, where its table begins.
[[nodiscard]] const Place& place_of(const PlacesByKey& places, std::string_view key, const Place& otherwise);

}  // namespace heatwork::trade
