// What two nouns of one kind do not share, value by value, in words.
#pragma once

#include <string>
#include <vector>

#include "trade/alloy.h"
#include "trade/firing.h"
#include "trade/noun.h"
#include "trade/words.h"

namespace heatwork::trade {

/// A value, a table or one of a list that the one has otherwise than the other. Values as a file writes them, texts without quotes.
struct Difference {
  std::string key;     ///< as in the file, lists counted from 1: "heating[2].hold"
  std::string where;   ///< "heating stage 2, hold"
  std::string before;  ///< empty: it was not there
  std::string after;   ///< empty: it is gone
};

/// In the order of the field table; defaults count as written. Empty: they are alike.
template <class T>
[[nodiscard]] std::vector<Difference> difference(const T& before, const T& after);

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  extern template std::vector<Difference> difference<type>(const type&, const type&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

/// "heating stage 2, hold: 1 min 20 s instead of 1 min"; "cooling stage 1: added (to 600 °C, opening 0 %)".
[[nodiscard]] std::string in_words(const Difference& difference);
/// The same for whoever reads these words: place, values and sentence as the fields of that kind are called in them.
struct ToldDifference {
  std::string where, before, after, words;
};
[[nodiscard]] ToldDifference told(const Difference& difference, Noun noun, const Words& words);

}  // namespace heatwork::trade
