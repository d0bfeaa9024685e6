// The values of a noun by their keys, in the order of the field table.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/alloy.h"
#include "trade/firing.h"
#include "trade/noun.h"

namespace heatwork::trade {

struct KeyedValue {
  std::string key;           ///< as an edit takes it: "heating[2].hold"
  std::string typed;         ///< as the text it was read from says it; lists with commas
  std::string text;          ///< canonical value as an edit takes it, without quotes
  std::optional<double> si;  ///< of a quantity its number in SI
  bool operator==(const KeyedValue&) const = default;
};

/// Only what is present; defaults are.
template <class T>
[[nodiscard]] std::vector<KeyedValue> keyed_values(const T& noun);

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) extern template std::vector<KeyedValue> keyed_values<type>(const type&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

}  // namespace heatwork::trade
