// The four questions asked of every firing, answered in words for each piece: dry, pores, vacuum, heat; and the comparison.
#pragma once

#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "report/number.h"

namespace heatwork::report {

/// One question with an answer a piece, in the order of the tray.
struct Answer {
  std::string question;
  std::vector<std::string> by_piece;
};

/// "like 12 K less, or 40 s less hold"; empty where there is no number and no bound. [text]
std::string comparison_in_words(const firing::Comparison& comparison, const Numbers& numbers);

/// The questions with their answers, causes first; what tension is left comes last, where it was asked for.
std::vector<Answer> answers_of(const firing::Rehearsal& rehearsal, const Numbers& numbers);

}  // namespace heatwork::report
