// UTF-8, the only spelling of letters files may have.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace heatwork::trade {

/// Where the first byte stands that is not UTF-8 (overlong forms and surrogates count as wrong); npos where all is well.
[[nodiscard]] std::size_t first_wrong_byte(std::string_view text);

/// The text with every wrong byte as '?'.
[[nodiscard]] std::string mended(std::string_view text);

/// Letters (code points) of a text that is UTF-8.
[[nodiscard]] std::size_t count_letters(std::string_view text);

}  // namespace heatwork::trade
