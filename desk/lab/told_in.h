// An answer told in another language: its sentences, and the differences of two versions it shows.
#pragma once

#include <optional>

#include "desk/json_value.h"
#include "trade/noun.h"
#include "trade/words.h"

namespace heatwork::desk {

/// Every "sentence", the "notes", "what" falls due, and every difference of two texts of that kind ("key", "where", "before", "after",
/// "words"), as the language says it. Keys, values and all else stay; so does whatever the language has no words for.
[[nodiscard]] Json told_in(trade::Language language, const Json& answer, std::optional<trade::Noun> noun = std::nullopt);

}  // namespace heatwork::desk
