// What decides an aspect's number, and how far it may be off: shipped in data/limits/.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "trade/place.h"

namespace heatwork::trade {

/// Whose an input is: furnace and load change in the firing only, piece, material and what the model assumes in the maker's as well.
enum class InputOf { furnace, load, piece, material, model };

/// One input. The range of a material's property stands in the material's own file, so low, high, unit, standing and source stay empty.
struct DecidingInput {
  std::string name;
  InputOf of = InputOf::furnace;
  double low = 0, high = 0;  ///< change against the value given, in `unit`; low < 0 < high
  std::string unit;
  std::vector<std::string> aspects;  ///< in the words of findings
  std::string meaning;
  Standing standing = Standing::assumed;
  std::string source;

  [[nodiscard]] bool decides(std::string_view aspect) const;
};

using DecidingInputs = std::vector<DecidingInput>;  ///< in the order of the file

/// Reads a file of inputs. Errors: located sentence as every reader's.
DecidingInputs read_deciding_inputs(std::string_view source_name, std::string_view text);

}  // namespace heatwork::trade
