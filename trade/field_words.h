// What the catalogue of words has for fields, choices, kinds of file and kinds of value. Where it has nothing the English of the field
// table itself is what is said: a meaning is stated once.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "trade/noun.h"
#include "trade/words.h"

namespace heatwork::trade {

/// A word or phrase as a key of words: "bench step" is "bench_step", "a number in W/(m2 K)" is "a_number_in_w_m2_k".
[[nodiscard]] std::string word_key(std::string_view phrase);

/// "label", "meaning" or "one" of a field; `path` from the noun on without places in lists: "heating.to", "record.result.outcome".
/// Nothing where the catalogue has none.
[[nodiscard]] std::optional<std::string> field_word(const Words& words, Noun noun, std::string_view path, std::string_view what);

/// What a field means in the language of `words`, by what it means in English; nothing where no field means that.
[[nodiscard]] std::optional<std::string> meaning_in(const Words& words, std::string_view meaning);

/// A word to choose from as people read it, "called off" or "abgesagt"; the word itself where the catalogue has none.
[[nodiscard]] std::string choice_in(const Words& words, Noun noun, std::string_view path, std::string_view word);
/// The same where the field is not known.
[[nodiscard]] std::string choice_in(const Words& words, std::string_view word);

/// A text whose points between digits are the decimal mark of these words.
[[nodiscard]] std::string with_decimal_mark(std::string_view text, const Words& words);

/// "bench step" or "Arbeitsschritt".
[[nodiscard]] std::string noun_in(const Words& words, Noun noun);
/// "a temperature" or "eine Temperatur", "a number in mm" or "eine Zahl in mm".
[[nodiscard]] std::string kind_in(const Words& words, std::string_view kind);

}  // namespace heatwork::trade
