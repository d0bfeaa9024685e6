// What stands behind a finding: the page of the theory manual that tells it, the equation that decides, and where that comes from.
#pragma once

#include <string_view>

#include "verdict/finding.h"

namespace heatwork::verdict {

struct Explanation {
  std::string_view page;      ///< of docs/theory/, without its ending
  std::string_view equation;  ///< "(pores.1) da/dt = ...", as the page has it; empty: a rule, no equation
  std::string_view source;    ///< the reference, as the bibliography has it in short
};

Explanation explanation_of(Aspect aspect);

/// Key of the words that say what the aspect is: "help.degree_of_firing".
std::string help_key_of(Aspect aspect);

}  // namespace heatwork::verdict
