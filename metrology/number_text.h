// A number as the sentences of this room write it.
#pragma once

#include <string>

namespace heatwork::metrology {

/// A number with at most `digits` significant digits, for a sentence.
/// source: computed-here
std::string number_text(double value, int digits = 10);

}  // namespace heatwork::metrology
