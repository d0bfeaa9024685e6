// What an error of a display means: small enough to leave, too large to use the furnace with, and too large to be an error of it at all.
#pragma once

namespace heatwork::metrology {

// Standing of all: assumed. source: chosen-here

/// What is allowed where the lab says nothing; a smaller error is not worth a correction [K].
inline constexpr double usual_display_limit_K = 5.0;
/// Beyond it the furnace is not used as it is [K].
inline constexpr double beyond_use_K = 20.0;
/// No furnace is off by so much: a reading, a wire or a thermocouple is wrong [K].
inline constexpr double beyond_any_error_K = 60.0;

}  // namespace heatwork::metrology
