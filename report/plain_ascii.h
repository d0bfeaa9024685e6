// Text for a terminal that shows ASCII alone.
#pragma once

#include <string>
#include <string_view>

namespace heatwork::report {

/// The signs Heatwork itself writes are spelt in ASCII (° left out, µ as u, − as -, … as one dot); any other becomes "?".
std::string in_plain_ascii(std::string_view text);

}  // namespace heatwork::report
