// The values of a kept text by their keys, as a form shows them.
#pragma once

#include <vector>

#include "desk/json_value.h"
#include "records/document.h"
#include "trade/edit.h"
#include "trade/noun.h"

namespace heatwork::desk {

/// [{"key": "heating[1].to", "typed", "text", "si"}] in the order of the field table, only what is present. `typed` is how the person wrote
/// it where that is kept, else the canonical text; `si` is null of what is no quantity. Errors: trade::Mistake.
JsonList values_of(trade::Noun noun, const records::Document& document);

/// Those that the person wrote otherwise than they are kept, as edits that write them so again. Errors: as above.
std::vector<trade::Edit> typed_otherwise(trade::Noun noun, const records::Document& document);

}  // namespace heatwork::desk
