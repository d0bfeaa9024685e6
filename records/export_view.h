// The export of what a view shows that is open already; and how many rows that is.
#pragma once

#include <cstdint>
#include <string>

#include "records/exchange.h"
#include "records/inside.h"

namespace heatwork::records {

/// As export_json, inside a ReadingView, a WriteTransaction or a NewStore.
std::string export_in_view(Store::Inside& inside, const Sink& sink, const Watch& watch);

/// Rows of the tables an export carries.
std::int64_t rows_to_export(Store::Inside& inside);

}  // namespace heatwork::records
