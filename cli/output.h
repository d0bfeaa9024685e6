// The two streams: results on standard output, all else on standard error.
#pragma once

#include <string_view>

namespace heatwork::cli {

/// Writes a result whole. A reader that has gone away is no fault; a full disk is. Errors: desk::Failure cannot_write.
void put_result(std::string_view text);
/// Writes a note or an error; there is nobody left to tell when that fails.
void put_note(std::string_view text);

bool result_is_terminal();
bool note_is_terminal();
/// Colour only on a terminal, and only where NO_COLOR does not forbid it.
bool colour_wanted();
/// A terminal whose character set is not UTF-8; what is no terminal always gets UTF-8, so that the bytes are the same everywhere.
bool plain_ascii_wanted();

}  // namespace heatwork::cli
