// From a choice to the word files use for it, and back.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>

#include "trade/choice.h"

namespace heatwork::trade {

/// "as wanted"
template <class E>
[[nodiscard]] std::string_view choice_word(E choice) {
  return choices<E>()[static_cast<std::size_t>(choice)];
}

/// Nothing where no choice is spelled so.
template <class E>
[[nodiscard]] std::optional<E> choice_of(std::string_view word) {
  const auto words = choices<E>();
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<E>(found - words.begin());
}

}  // namespace heatwork::trade
