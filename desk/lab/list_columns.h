// What a list of documents shows of each beside its name, label and state, read off the documents of one page.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "desk/json_value.h"
#include "records/store.h"
#include "trade/noun.h"

namespace heatwork::desk {

using Columns = std::map<std::string, JsonObject>;  ///< by name

/// Of a program the materials and stages of work of the instructions it stands in, last_used and last_furnace; of a piece its case and
/// teeth; of a case teeth, pieces, wanted, next_step; of a lot material, liquid, code, expires; of a firing stage, furnace, program,
/// pieces; of a check furnace, of, next, readings, error_K, standard_uncertainty_K, limit_K; of an instruction material, stage, program.
/// Nothing of the others. Errors: trade::Mistake, records::StoreError.
Columns columns_of(records::Store& store, trade::Noun noun, const std::vector<records::Head>& rows);

/// A row with these members behind its own.
Json with_columns(const Json& row, JsonObject columns);

/// What ships of a kind, [{"name", "label"}] in order of name: a file of the lab may name it though the store does not keep it. `word` is
/// sought in both, in any case of A to Z; empty: all.
JsonList shipped_of(trade::Noun noun, const std::string& word);

}  // namespace heatwork::desk
