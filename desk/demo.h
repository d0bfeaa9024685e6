// The demo lab, invented and shipped, written into a folder for a stranger to try and to change.
#pragma once

#include <string>

#include "desk/folder_files.h"

namespace heatwork::desk {

/// Writes every file of the demo lab into a folder, which it makes where there is none. A file that stands there and differs is never
/// touched: then nothing is written at all. Errors: Failure already_there, cannot_write, with one sentence.
FolderWritten write_demo(const std::string& folder);

}  // namespace heatwork::desk
