// Which store a lab is kept in, without its secrets: two that are said alike are one.
#pragma once

#include <string>

#include "desk/lab/asked.h"

namespace heatwork::desk {

/// Errors: records::StoreError bad_address; Failure.
std::string which_store(const AskedLab& asked);

}  // namespace heatwork::desk
