// What a wire test must know before a wire is fired, in the order it is asked.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "furnace_care/question.h"
#include "trade/check.h"

namespace heatwork::furnace_care {

/// Nothing where all is answered.
[[nodiscard]] std::optional<Question> next_wire_question(const trade::WireTest& wire);

/// The questions that are answered, in the order they were asked.
[[nodiscard]] std::vector<Question> answered_wire_questions(const trade::WireTest& wire);

/// Takes out what was answered before and no longer fits, such as the pressure of a vacuum where the wire is held in air; a sentence each.
std::vector<std::string> take_out_what_no_longer_fits(trade::WireTest& wire);

}  // namespace heatwork::furnace_care
