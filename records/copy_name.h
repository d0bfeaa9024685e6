// The names of copies: which store, and when. "heatwork-1f0c33a9-20261125T171104Z.sqlite"
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace heatwork::records {

/// Of a time as the trail writes it, "2026-11-25T17:11:04.123Z". [s since 1970-01-01 UTC] Errors: StoreError bad_value.
std::int64_t seconds_of(const std::string& utc);

/// Errors: StoreError bad_value where the time is none.
std::string copy_name(const std::string& store_id, const std::string& now_utc);

/// The time in the name of a copy of this store. [s since 1970-01-01 UTC] Nothing where the name is not that of one.
std::optional<std::int64_t> time_of_copy(const std::string& name, const std::string& store_id);

/// True for what was left of a copy of this store that was never finished: the file itself, its text, its journal.
bool is_unfinished_copy(const std::string& name, const std::string& store_id);

}  // namespace heatwork::records
