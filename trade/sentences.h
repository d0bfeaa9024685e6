// Sentences that are written in English where they are thrown, said in another language: patterns with gaps, one a sentence.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "trade/words.h"

namespace heatwork::trade {

/// English patterns and what they are in one language. A gap's name says what may stand in it: `kind` a kind of value, `noun` a kind of
/// file, `a_noun`, `object`, `no_noun` one with its article, `thing` a kind and a name, `choice` and `choices` words to choose from,
/// `range` and `number` with their decimal mark, `meaning` what a field means, `clause` a part that must fit a pattern itself, `name`
/// without a blank; any other stays as it is. A digit behind the name tells two of one sort apart.
class Sentences {
 public:
  /// Reads patterns (TOML, `format = 1`, [sentences] with "English {gap}" = "German {gap}"). Errors: located sentence as every reader's.
  void add(std::string_view source_name, std::string_view text);
  /// The sentence in the language of `words`; nothing where no pattern fits it whole.
  [[nodiscard]] std::optional<std::string> say(std::string_view english, const Words& words) const;
  [[nodiscard]] std::size_t size() const { return patterns_.size(); }

 private:
  struct Piece {
    std::string text;  ///< letters, or the name of a gap
    bool is_gap = false;
  };
  struct Pattern {
    std::vector<Piece> english, said;
    std::string longest;  ///< letters that any sentence of it holds
    std::size_t letters = 0;
  };
  class Matching;
  static std::vector<Piece> pieces_of(std::string_view text);

  std::vector<Pattern> patterns_;  ///< the most letters first
};

/// A sentence of Heatwork, with what stands before it (a place in a file) and after it (the line and its caret), in the asked language.
/// Whole in that language, or whole in English where no pattern fits.
[[nodiscard]] std::string in_language(std::string_view english, Language language);
/// The same for whoever reads these shipped words.
[[nodiscard]] std::string in_language(std::string_view english, const Words& words);

}  // namespace heatwork::trade
