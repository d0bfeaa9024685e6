// The look of the firing picture: type sizes, shades and dashes, as CSS for light and dark.
#pragma once

#include <string>

#include "report/firing_picture.h"

namespace heatwork::report {

inline constexpr double small_text_px = 12;
inline constexpr double text_px = 13;
inline constexpr double headline_px = 16;
inline constexpr double title_px = 21;

/// Style sheet of the picture. Lines differ by dash and width as well as by shade; every text has a contrast of 4.5 or more.
std::string picture_css(Shade shade);

}  // namespace heatwork::report
