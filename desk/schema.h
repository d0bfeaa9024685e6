// What the files of the lab may hold, said by the reader's own field tables.
#pragma once

#include <string>

#include "trade/noun.h"

namespace heatwork::desk {

/// The kinds of file there are, a line each.
std::string nouns_as_text();
/// The kind of a word, "bench step" or "bench-step". Errors: Failure unknown_name with the near miss.
trade::Noun noun_named(const std::string& word);
/// JSON Schema of a kind of file. Errors: Failure unknown_name with the near miss.
std::string schema_text(const std::string& noun);

}  // namespace heatwork::desk
