#include "trade/shipped.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

/// The table and all files, laid in by cmake/shipped.cmake: the number of files, then four offsets and lengths a file.
extern "C" const std::uint64_t heatwork_shipped[];

namespace heatwork::trade {
namespace {

std::vector<ShippedFile> laid_in_files() {
  const char* start = reinterpret_cast<const char*>(heatwork_shipped);
  std::vector<ShippedFile> files(heatwork_shipped[0]);
  const std::uint64_t* row = heatwork_shipped + 1;
  for (ShippedFile& file : files) {
    file.path = std::string_view(start + row[0], row[1]);
    file.text = std::string_view(start + row[2], row[3]);
    row += 4;
  }
  return files;
}

}  // namespace

std::span<const ShippedFile> shipped_files() {
  static const std::vector<ShippedFile> files = laid_in_files();
  return files;
}

std::string_view shipped_text(std::string_view path) {
  const std::span<const ShippedFile> files = shipped_files();
  const auto found = std::lower_bound(files.begin(), files.end(), path,
                                      [](const ShippedFile& file, std::string_view wanted) { return file.path < wanted; });
  return found != files.end() && found->path == path ? found->text : std::string_view();
}

}  // namespace heatwork::trade
