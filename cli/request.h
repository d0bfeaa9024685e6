// What the words of a command line ask for, read and checked, ready to be done.
#pragma once

#include <string>
#include <vector>

#include "cli/verb.h"

namespace heatwork::cli {

/// Errors: desk::Failure wrong_use with one sentence that says what is wrong and where help stands.
Deed read_request(const std::vector<std::string>& words);

}  // namespace heatwork::cli
