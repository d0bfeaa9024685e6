// Moments and days as a store keeps them, in UTC, and as people read and type them, in the zone of the lab.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace heatwork::desk {

/// "2026-11-25T17:11:04Z". [ms since 1970-01-01 UTC]
std::string utc_text(std::int64_t at_ms);
/// Of "2026-11-25T17:11:04Z", with or without parts of a second. Errors: Failure bad_value.
std::int64_t utc_ms(std::string_view text);

/// "2026-11-25 18:11". Errors: Failure bad_value where there is no such zone.
std::string local_text(std::int64_t at_ms, std::string_view zone);
/// The day it is then, "2026-11-25".
std::string local_day(std::int64_t at_ms, std::string_view zone);

/// When a day such as "2026-11-25" begins. Errors: Failure bad_value where it is none.
std::int64_t day_begins_ms(std::string_view day, std::string_view zone);
/// So many days later (or, negative, earlier).
std::string day_after(std::string_view day, int days);

/// A moment as typed: "2026-11-25 18:11" in the zone, or UTC as above. Errors: Failure bad_value, also where the clocks skip that time
/// or show it twice; then with both moments.
std::int64_t typed_ms(std::string_view typed, std::string_view zone);

}  // namespace heatwork::desk
