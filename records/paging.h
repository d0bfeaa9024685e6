// Which rows a page of an answer begins after.
#pragma once

#include <cstdint>
#include <string>

#include "records/store.h"
#include "records/store_error.h"

namespace heatwork::records {

/// Rows before a page. Errors: StoreError bad_value.
inline std::int64_t rows_before(int page) {
  if (page < 1) throw StoreError(StoreProblem::bad_value, "There is no page " + std::to_string(page) + ": pages count from 1.");
  return std::int64_t{page - 1} * rows_a_page;
}

}  // namespace heatwork::records
