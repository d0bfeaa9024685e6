#include "desk/demo.h"

#include <string_view>

#include "trade/shipped.h"

namespace heatwork::desk {

FolderWritten write_demo(const std::string& folder) {
  constexpr std::string_view demo_folder = "demo/";
  std::vector<FolderFile> files;
  for (const trade::ShippedFile& file : trade::shipped_files()) {
    if (file.path.starts_with(demo_folder)) files.push_back({std::string(file.path.substr(demo_folder.size())), file.text});
  }
  return write_folder(folder, files, "Name an empty folder: heatwork demo FOLDER.");
}

}  // namespace heatwork::desk
