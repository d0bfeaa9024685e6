#include "trade/mistake.h"

#include <fmt/format.h>

#include <utility>

#include "quantity/people_write.h"
#include "trade/utf8.h"

namespace heatwork::trade {
namespace {

constexpr std::size_t widest_line = 100;

std::string_view line_of(std::string_view text, int line) {
  for (int i = 1; i < line; ++i) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  auto end = text.find('\n');
  if (end == std::string_view::npos) end = text.size();
  if (end > 0 && text[end - 1] == '\r') --end;
  return text.substr(0, end);
}

bool continues_letter(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

/// The letters of a line from `first` on, `most` at the most; bytes that would upset a terminal become '?'.
std::string letters(std::string_view line, std::size_t first, std::size_t most) {
  std::string out;
  std::size_t letter = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i > 0 && !continues_letter(line[i])) ++letter;
    if (letter < first) continue;
    if (letter >= first + most) break;
    const auto byte = static_cast<unsigned char>(line[i]);
    out += byte == '\t' ? ' ' : (byte < 32 || byte == 127) ? '?' : line[i];
  }
  return out;
}

/// What is allowed, said with its numbers as people write them; what was typed stays as it was typed.
std::string as_told(const std::string& what_is_wrong) {
  const auto at = what_is_wrong.find("; allowed is ");
  if (at == std::string::npos) return what_is_wrong;
  return what_is_wrong.substr(0, at) + quantity::as_people_write(std::string_view(what_is_wrong).substr(at), ".");
}

}  // namespace

std::string for_message(std::string_view text, std::size_t most) {
  const std::string whole = mended(text);
  std::string out = letters(whole, 0, most);
  if (out.size() < whole.size()) out += "...";
  return out;
}

std::string located(const Place& place, std::string_view sentence) {
  if (!place.source) return std::string(sentence);
  if (place.line <= 0) return fmt::format("{}: {}", place.source->name, sentence);
  const std::string head = fmt::format("{}:{}:{}: {}", place.source->name, place.line, place.column, sentence);
  const std::string line = mended(line_of(place.source->text, place.line));
  if (line.empty()) return head;
  const std::size_t at = place.column > 0 ? static_cast<std::size_t>(place.column - 1) : 0;
  const std::size_t first = at < widest_line ? 0 : at - widest_line / 2;
  return fmt::format("{}\n{}\n{}^", head, letters(line, first, widest_line), std::string(at - first, ' '));
}

Mistake::Mistake(Place where, const std::string& what_is_wrong)
    : std::runtime_error(located(where, as_told(what_is_wrong))), place_(std::move(where)), sentence_(as_told(what_is_wrong)) {}

}  // namespace heatwork::trade
