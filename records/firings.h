// Firings that were started in one furnace, newest first.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "records/store.h"

namespace heatwork::records {

struct FiringRow {
  std::string id;
  std::int64_t at_ms = 0;
};

/// From a moment on, newest first, each once; no more than are found in that many pieces on its trays. Errors: StoreError.
std::vector<FiringRow> firings_in(Store& store, std::string_view furnace, std::int64_t from_ms, std::int64_t most_pieces);

/// How many there are from a moment on, however many. Errors: StoreError.
std::int64_t count_firings_in(Store& store, std::string_view furnace, std::int64_t from_ms);

}  // namespace heatwork::records
