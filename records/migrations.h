// From a store of an earlier format to the current one: a copy first, then step by step in one transaction.
#pragma once

#include "records/inside.h"

namespace heatwork::records {

/// Brings a store of an earlier format to the current one; fills in what `found` says of it. Errors: StoreError; then it is as it was.
void migrate(Store::Inside& inside);

}  // namespace heatwork::records
