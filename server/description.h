// The description of the interface, OpenAPI 3.1, joined of the fragments that stand in server/description/.
#pragma once

#include "desk/json_value.h"

namespace heatwork::server {

/// Joined once a process. Errors: std::logic_error where two fragments say the same thing twice.
const desk::Json& description();

}  // namespace heatwork::server
