// What may be kept at all: every value handed in is looked at before anything is written.
#pragma once

#include <string>
#include <string_view>

#include "records/store.h"

namespace heatwork::records {

/// UTF-8 as Unicode defines it: shortest form, no surrogates, nothing beyond U+10FFFF.
bool is_utf8(std::string_view text);

/// Errors: StoreError bad_value, naming the value and what is allowed.
void check(const Change& change);
void check(const Who& who);
/// What a document is found by goes into the same tables.
void check(const Document& document, const Index& index);

}  // namespace heatwork::records
