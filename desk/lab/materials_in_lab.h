// The materials that ship, and beside them those a lab keeps in its store.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

// Errors of all: Failure, trade::Mistake, records::StoreError. Where nobody named a store and none stands, what ships is all there is.

/// Those that ship, then a page of those that are kept.
CareAnswer list_materials(const AskedLab& asked, int page);

/// A kept one by NAME or NAME@VERSION, else one that ships, or the one of a FILE.toml. A kept one goes before one that ships.
CareAnswer show_material(const AskedLab& asked, const std::string& name_or_file);

}  // namespace heatwork::desk
