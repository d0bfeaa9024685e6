// The files of a lab, kept in its store, and written out again: a furnace's reset or a dead PC then costs no program.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

/// Keeps every file of a lab in a folder at one stroke: one that is new as its first version, one that stands already as it is left. Where
/// any differs from what stands, nothing is kept unless `reason` says why; then it becomes the next version.
/// Errors: Failure, trade::Mistake; then nothing was kept.
CareAnswer take_in(const AskedLab& asked, const std::string& folder, const std::string& reason);

/// Writes the newest version of every file of the lab into a folder, as KIND-NAME.toml. A file that stands there and differs is never
/// touched: then nothing is written at all. Errors: Failure.
CareAnswer write_out(const AskedLab& asked, const std::string& folder);

}  // namespace heatwork::desk
