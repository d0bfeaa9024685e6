// Many files written into a folder as one: all of them, or none; what stands there and differs is never touched.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace heatwork::desk {

struct FolderFile {
  std::string name;  ///< within the folder; may lie in folders below it
  std::string_view text;
};

struct FolderWritten {
  std::vector<std::string> written;  ///< paths
  std::vector<std::string> kept;     ///< there already, the same
};

/// Makes the folder where there is none. `advice`: what to do where something else stands there, a sentence.
/// Errors: Failure already_there, cannot_write, with one sentence.
FolderWritten write_folder(const std::string& folder, const std::vector<FolderFile>& files, std::string_view advice);

}  // namespace heatwork::desk
