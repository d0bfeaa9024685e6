// How a lock is named after what it locks.
#pragma once

#include <string>
#include <string_view>

namespace heatwork::trade {

/// "program-dentine", "bench-step-crown-16-built".
[[nodiscard]] std::string lock_name(std::string_view kind, std::string_view name);

}  // namespace heatwork::trade
