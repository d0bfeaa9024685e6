// What a guided check asks next, one thing at a time.
#pragma once

#include <string>
#include <vector>

namespace heatwork::furnace_care {

/// A question, the key of the check's file its answer is kept under, and what may be answered.
struct Question {
  std::string key;                   ///< "wire.gas"
  std::string sentence;              ///< what is asked
  std::string why;                   ///< why it matters
  std::vector<std::string> choices;  ///< words to choose from; empty: a value
  std::string example;               ///< a value as one would type it
  std::string place = {};            ///< of a tab: where in the chamber it was fired
  std::string told_by = {};          ///< of a tab: "heat" or "colour", as the first was told; empty: none is told yet
  std::string or_else = {};          ///< another key that answers it as well, with its values
};

/// good, not good, cannot tell, or still going on; never told without its sentence.
enum class CheckLevel { going_on, good, not_good, cannot_tell };

/// "not good"
[[nodiscard]] std::string word(CheckLevel level);

}  // namespace heatwork::furnace_care
