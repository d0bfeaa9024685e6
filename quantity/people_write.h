// Numbers of a text as people write them: no "1e-05".
#pragma once

#include <string>
#include <string_view>

namespace heatwork::quantity {

/// A text with its numbers as people write them: "1e-05 /s" is "0.00001 /s"; what is smaller, or has over 12 digits before its mark, is a
/// power of ten, "2·10⁻⁷ /s". The digits stay the same, with the reader's decimal mark, and are read back to the same value. [text]
std::string as_people_write(std::string_view text, std::string_view decimal_mark);

}  // namespace heatwork::quantity
