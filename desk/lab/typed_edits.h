// Values by their keys as a request gives them, read into edits.
#pragma once

#include <string>
#include <vector>

#include "trade/edit.h"

namespace heatwork::desk {

/// `set`: "KEY=VALUE" each; `unset`: keys. Errors: Failure bad_value where one is spelled otherwise, or a key is given twice.
std::vector<trade::Edit> edits_of(const std::vector<std::string>& set, const std::vector<std::string>& unset);

}  // namespace heatwork::desk
