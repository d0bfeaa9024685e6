// The command line as a whole: words in, exit code out.
#pragma once

#include <string>
#include <vector>

namespace heatwork::cli {

/// Does what the words ask, without the program's own name. Results go to standard output, all else to standard error.
int run(const std::vector<std::string>& words);

}  // namespace heatwork::cli
