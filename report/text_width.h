// How wide a line of text will be, so that labels can be placed before anything draws them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace heatwork::report {

/// Width of a line in DejaVu Sans at a size; signs outside its Latin table count as 0.66 of the size. [px]
/// source: dejavu
double text_width(std::string_view text, double size_px, bool bold = false);

/// Breaks a text at spaces into lines no wider than `width_px`; a word wider than that stands alone. [lines]
std::vector<std::string> broken_into_lines(std::string_view text, double size_px, double width_px, bool bold = false);

/// A text cut to a width with "…" where something is missing. [text]
std::string cut_to_width(std::string_view text, double size_px, double width_px, bool bold = false);

/// Number of signs (code points) of a UTF-8 text. [1]
std::size_t signs(std::string_view text);

/// A text cut to so many signs with "…" where something is missing. [text]
std::string cut_to_columns(std::string_view text, std::size_t columns);

/// Breaks a text at spaces into lines of at most `columns` signs, for a terminal. [lines]
std::vector<std::string> broken_into_columns(std::string_view text, std::size_t columns);

}  // namespace heatwork::report
