// A word that nobody may read over the shoulder: typed twice without echo on a terminal, else one line of standard input.
#pragma once

#include <string>

namespace heatwork::cli {

/// `what`: "Password of mara". Errors: Failure bad_value where the two differ or nothing comes; stopped on Ctrl-C.
std::string typed_secret(const std::string& what);

}  // namespace heatwork::cli
