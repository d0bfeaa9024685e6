// Words that stand on every sheet and picture.
#pragma once

#include <string_view>

namespace heatwork::report {

inline constexpr std::string_view standing_words =
    "Calculated aid for trained people. Simulation and advice are estimates. The instructions for use of the material and of the furnace, "
    "the lab's own validated procedures, and local law come first. Only the responsible professional releases a restoration. Not a medical "
    "device.";

}  // namespace heatwork::report
