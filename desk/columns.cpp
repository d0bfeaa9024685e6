#include "desk/columns.h"

#include <algorithm>

namespace heatwork::desk {

std::string wrapped(std::string_view text, std::size_t margin, std::size_t first_margin) {
  std::string out(first_margin, ' ');
  std::size_t width = first_margin;
  bool line_begins = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const auto letters = static_cast<std::size_t>(
        std::count_if(word.begin(), word.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
    if (!line_begins && width + 1 + letters > text_columns) {
      out += "\n" + std::string(margin, ' ');
      width = margin;
      line_begins = true;
    }
    if (!line_begins) {
      out += ' ';
      ++width;
    }
    out += word;
    width += letters;
    line_begins = false;
  }
  return out + "\n";
}

}  // namespace heatwork::desk
