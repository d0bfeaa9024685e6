// Every model by name: listed, described, asked. The command line, tests and later the page come through here.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>

#include "desk/calculations/calculation.h"

namespace heatwork::desk {

/// In the order of showing.
std::span<const Calculation* const> calculations();
/// Errors: Failure unknown_name with the near miss.
const Calculation& find_calculation(std::string_view name);

/// One object in, one out. Errors: Failure with one sentence naming the key and what is allowed.
Json calculate(const Calculation& calculation, const Json& object);

/// An object or a list of them, answered alike, in order; a refusal in a list names the item. `done` is told how many items are ready.
Json calculate_all(const Calculation& calculation, const Json& asked, const std::function<void(std::size_t, std::size_t)>& done = {});

/// Names, one line each with purpose and source.
std::string calculation_list();
/// Inputs, outputs, equation and source as text of at most 100 columns.
std::string describe_as_text(const Calculation& calculation);
/// JSON Schema of the input; that of the answer stands under "$defs" as "answer".
Json describe_as_schema(const Calculation& calculation);

}  // namespace heatwork::desk
