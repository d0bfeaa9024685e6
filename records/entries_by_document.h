// The trail told document by document, where `entries` tells it by time.
#pragma once

#include "records/inside.h"

namespace heatwork::records {

/// Every entry, in order of kind, id and sequence. Inside a view.
Rows<Entry> entries_by_document(Store::Inside& inside);

}  // namespace heatwork::records
