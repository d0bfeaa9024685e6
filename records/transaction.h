// Begin, commit and roll back of the only writer; for WriteTransaction and for the making of a store, which has nothing to check yet.
#pragma once

#include "records/inside.h"

namespace heatwork::records {

/// Waits for whoever writes. Errors: StoreError locked ...
void begin_writing(Store::Inside& inside);
/// On the disk when it returns; gone where it throws, except that `unreachable` leaves it open.
void commit(Store::Inside& inside);
void roll_back(Store::Inside& inside);

/// What was erased leaves the engine's log and its freed places soon, and not only its tables. Outside a transaction.
void forget_erased(Store::Inside& inside);

}  // namespace heatwork::records
