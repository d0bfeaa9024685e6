// Numbers as text that reads back bit for bit, infinity and all: the bytes of each double, lowest first, in base64.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace heatwork::desk {

std::string exact_text(std::span<const double> values);
/// Errors: std::invalid_argument where the text was not written by `exact_text`.
std::vector<double> exact_numbers(std::string_view text);

}  // namespace heatwork::desk
