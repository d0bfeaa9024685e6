#include "trade/noun.h"

#include <algorithm>

namespace heatwork::trade {
namespace {

std::string without_spaces(Noun noun, char in_their_place) {
  std::string text(word(noun));
  std::replace(text.begin(), text.end(), ' ', in_their_place);
  return text;
}

}  // namespace

std::optional<Noun> noun_of(std::string_view word) {
  for (std::size_t i = 0; i < noun_words.size(); ++i)
    if (noun_words[i] == word) return static_cast<Noun>(i);
  return std::nullopt;
}

std::string table_key(Noun noun) {
  return without_spaces(noun, '_');
}

std::optional<Noun> noun_of_table(std::string_view key) {
  for (std::size_t i = 0; i < noun_words.size(); ++i)
    if (table_key(static_cast<Noun>(i)) == key) return static_cast<Noun>(i);
  return std::nullopt;
}

std::string file_word(Noun noun) {
  return without_spaces(noun, '-');
}

std::string with_article(Noun noun) {
  const bool before_a_vowel = std::string_view("aeiou").find(word(noun).front()) != std::string_view::npos;
  return (before_a_vowel ? "an " : "a ") + std::string(word(noun));
}

std::string_view shipped_folder(Noun noun) {
#define HEATWORK_NOUN(type, enumerator, noun_word, folder) std::string_view(folder),
  static constexpr std::array folders = {HEATWORK_EVERY_NOUN(HEATWORK_NOUN)};
#undef HEATWORK_NOUN
  return folders[static_cast<std::size_t>(noun)];
}

}  // namespace heatwork::trade
