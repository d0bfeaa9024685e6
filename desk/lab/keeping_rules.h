// Who may keep what: roles by kind of file, locks, and signatures that are one's own.
#pragma once

#include <vector>

#include "desk/lab/roles.h"
#include "records/store.h"

namespace heatwork::desk {

/// To be asked before a change is kept. Errors: Failure not_allowed or bad_value with one sentence; then nothing may be kept.
void check_keeping(records::Store& store, const Asker& asker, const std::vector<records::NewVersion>& documents);

}  // namespace heatwork::desk
