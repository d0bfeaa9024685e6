// Who may keep what: roles by kind of file, locks, and signatures that are one's own.
#pragma once

#include "desk/lab/roles.h"
#include "records/store.h"

namespace heatwork::desk {

/// To be asked under the writers' lock before a change is kept. Errors: Failure not_allowed or bad_value with one sentence; then nothing
/// may be kept.
void check_keeping(records::Store& store, const Asker& asker, const records::Change& change);

}  // namespace heatwork::desk
