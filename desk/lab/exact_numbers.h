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

/// The same for a list much like another: "89:01fc:..." gives how many there are, in hexadecimal which of them are told (four a digit, the
/// first lowest), and those. One that is not told is that of `like` at its place, or, beyond the end of `like`, that so many places before
/// it in its own list as a row has.
std::string exact_text(std::span<const double> values, std::span<const double> like, std::size_t row);
std::vector<double> exact_numbers(std::string_view text, std::span<const double> like, std::size_t row);

}  // namespace heatwork::desk
