// What a kept document is found by, read off its bytes.
#pragma once

#include "records/document.h"

namespace heatwork::desk {

/// Of every kind of file a lab keeps: its label, the words to search in, its state, when it happened, the pieces that met something in it,
/// and what falls due. Errors: std::exception where the kind or the bytes
/// cannot be read.
records::Index index_of(const records::Document& document);

}  // namespace heatwork::desk
