// What a wire test must know before a wire is fired, in the order it is asked.
#pragma once

#include <optional>

#include "furnace_care/question.h"
#include "trade/check.h"

namespace heatwork::furnace_care {

/// Nothing where all is answered.
[[nodiscard]] std::optional<Question> next_wire_question(const trade::WireTest& wire);

}  // namespace heatwork::furnace_care
