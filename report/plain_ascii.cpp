#include "report/plain_ascii.h"

#include <array>
#include <utility>

namespace heatwork::report {

std::string in_plain_ascii(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 22> spelt = {
      {{"°", ""},   {"µ", "u"},  {"μ", "u"},  {"−", "-"},  {"–", "-"},  {"·", "-"}, {"…", "."},  {"≤", "<="},
       {"≥", ">="}, {"±", "+-"}, {"’", "'"},  {"“", "\""}, {"”", "\""}, {"×", "x"}, {"ä", "ae"}, {"ö", "oe"},
       {"ü", "ue"}, {"ß", "ss"}, {"Ä", "Ae"}, {"Ö", "Oe"}, {"Ü", "Ue"}, {"²", "2"}}};
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    if (static_cast<unsigned char>(text[at]) < 0x80) {
      out += text[at++];
      continue;
    }
    std::size_t end = at + 1;
    while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
    std::string_view written = "?";
    for (const auto& [sign, letters] : spelt) {
      if (text.substr(at, end - at) == sign) written = letters;
    }
    out += written;
    at = end;
  }
  return out;
}

}  // namespace heatwork::report
