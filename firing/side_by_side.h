// Work that falls into independent parts, done by as many threads as the machine has; the result never hangs on their number.
#pragma once

#include <cstddef>
#include <functional>

namespace heatwork::firing {

/// Calls `part(i)` once for every i below `count`; `workers` 0 takes as many threads as the machine has. An exception of the lowest i is
/// thrown on when all parts are done.
void side_by_side(std::size_t count, unsigned workers, const std::function<void(std::size_t)>& part);

}  // namespace heatwork::firing
