#include "trade/utf8.h"

namespace heatwork::trade {
namespace {

/// Bytes of the letter at the front of `text`; 0 where it is no UTF-8.
std::size_t letter_size(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  std::size_t size = 0;
  unsigned lowest = 0x80;
  unsigned highest = 0xBF;
  if (first >= 0xC2 && first <= 0xDF) {
    size = 2;
  } else if (first >= 0xE0 && first <= 0xEF) {
    size = 3;
    if (first == 0xE0) lowest = 0xA0;
    if (first == 0xED) highest = 0x9F;
  } else if (first >= 0xF0 && first <= 0xF4) {
    size = 4;
    if (first == 0xF0) lowest = 0x90;
    if (first == 0xF4) highest = 0x8F;
  } else {
    return 0;
  }
  if (text.size() < size || byte(1) < lowest || byte(1) > highest) return 0;
  for (std::size_t i = 2; i < size; ++i)
    if (byte(i) < 0x80 || byte(i) > 0xBF) return 0;
  return size;
}

}  // namespace

std::size_t first_wrong_byte(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t size = letter_size(text.substr(at));
    if (size == 0) return at;
    at += size;
  }
  return std::string_view::npos;
}

std::string mended(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t size = letter_size(text);
    if (size == 0) {
      out += '?';
      text.remove_prefix(1);
    } else {
      out += text.substr(0, size);
      text.remove_prefix(size);
    }
  }
  return out;
}

std::size_t count_letters(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text)
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  return count;
}

}  // namespace heatwork::trade
