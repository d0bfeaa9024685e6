// Text set in lines of at most 100 columns.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace heatwork::desk {

inline constexpr std::size_t text_columns = 100;

/// A text in lines broken between words: the first after `first_margin` blanks, the others after `margin`; ends with a line end.
std::string wrapped(std::string_view text, std::size_t margin, std::size_t first_margin);

}  // namespace heatwork::desk
