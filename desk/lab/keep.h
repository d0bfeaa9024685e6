// One way into a lab's store: whatever is kept passes roles, locks and signatures.
#pragma once

#include <string_view>

#include "desk/lab/store_place.h"
#include "records/store.h"

namespace heatwork::desk {

/// Opens the lab's store for what begins something new there. Where nobody named one, neither in words nor in settings, and none stands, it
/// is made.
records::Store opened_to_keep(const StorePlace& place);

/// Keeps a change in the name of the one who asks; `change.who` is filled in here, `change.allow` is asked after the rules of all. Errors:
/// Failure not_allowed or bad_value, records::Conflict, records::StoreError; then nothing was kept.
records::Kept keep(const StorePlace& place, records::Store& store, records::Change change);

}  // namespace heatwork::desk
