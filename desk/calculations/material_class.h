// The shipped classes of material by name.
#pragma once

#include <string>

#include "trade/material.h"

namespace heatwork::desk {

/// Errors: Failure unknown_name.
trade::Material material_class(const std::string& name);

}  // namespace heatwork::desk
