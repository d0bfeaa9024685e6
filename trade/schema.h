// JSON Schema of a noun's file, and the table of its keys for the format pages; both from the field table the reader uses.
#pragma once

#include <string>

#include "trade/noun.h"

namespace heatwork::trade {

/// JSON Schema (2020-12) of a file of that kind, as text ending in a line break.
[[nodiscard]] std::string schema_of(Noun noun);

/// A Markdown table of the keys: key, what it holds, needed or its default, meaning.
[[nodiscard]] std::string key_table_of(Noun noun);

}  // namespace heatwork::trade
