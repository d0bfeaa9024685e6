#include "trade/noun.h"

namespace heatwork::trade {

std::optional<Noun> noun_of(std::string_view word) {
  for (std::size_t i = 0; i < noun_words.size(); ++i)
    if (noun_words[i] == word) return static_cast<Noun>(i);
  return std::nullopt;
}

std::string_view shipped_folder(Noun noun) {
  static constexpr std::array<std::string_view, 9> folders = {"programs",  "instructions", "furnaces", "trays",  "supports",
                                                              "materials", "liquids",      "pieces",   "firings"};
  return folders[static_cast<std::size_t>(noun)];
}

}  // namespace heatwork::trade
