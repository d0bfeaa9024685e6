// Single values of a noun set or taken out by their key, as one types them on a command line; the reader then judges the whole.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/alloy.h"
#include "trade/firing.h"
#include "trade/noun.h"

namespace heatwork::trade {

struct Edit {
  std::string key;                   ///< "drying_time", "heating[2].hold", "piece[crown-16].place"; one past the end adds to a list
  std::optional<std::string> value;  ///< without quotes, lists with commas: "16, 17"; absent: the key is taken out, with all below it
};

/// The file of a noun with some values otherwise. What they say is judged by reading the text again, not here.
/// Errors: Mistake where a noun of this kind has no such key, or the list not as many.
template <class T>
[[nodiscard]] std::string edited_text(const T& noun, const std::vector<Edit>& edits);

/// The file of a new noun that holds the name and these values only. Errors: as above.
template <class T>
[[nodiscard]] std::string new_text(const std::string& name, const std::vector<Edit>& edits);

#define HEATWORK_NOUN(type, enumerator, noun_word, folder)                              \
  extern template std::string edited_text<type>(const type&, const std::vector<Edit>&); \
  extern template std::string new_text<type>(const std::string&, const std::vector<Edit>&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

}  // namespace heatwork::trade
