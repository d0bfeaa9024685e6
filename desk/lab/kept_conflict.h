// What is said where a change was made from a version that is no longer the newest: what either changed.
#pragma once

#include <string>

#include "desk/lab/keep.h"
#include "records/store.h"

namespace heatwork::desk {

/// Errors: always ChangedMeanwhile, the same with what the newest version changed and what `yours`, a text of that kind, would have.
[[noreturn]] void refuse_conflict(records::Store& store, const ChangedMeanwhile& conflict, const std::string& yours);

}  // namespace heatwork::desk
