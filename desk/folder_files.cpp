#include "desk/folder_files.h"

#include <fmt/core.h>

#include <filesystem>
#include <string_view>
#include <system_error>

#include "desk/errors.h"
#include "desk/files.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

struct Planned {
  fs::path path;
  std::string_view text;
};

/// The first folder on the way that has to be made; empty where all stand.
fs::path first_missing(const fs::path& folder) {
  fs::path missing;
  for (fs::path at = fs::absolute(folder).lexically_normal(); !at.empty() && !fs::exists(at); at = at.parent_path()) {
    missing = at;
    if (at == at.parent_path()) break;
  }
  return missing;
}

void refuse_others(const fs::path& folder, const std::vector<Planned>& planned, std::string_view advice, FolderWritten& result,
                   std::vector<Planned>& missing) {
  if (fs::exists(folder) && !fs::is_directory(folder)) {
    throw Failure(ErrorWord::already_there, fmt::format("{} is no folder; nothing was written.", folder.string()));
  }
  for (const Planned& each : planned) {
    if (!fs::exists(fs::symlink_status(each.path))) {
      missing.push_back(each);
      continue;
    }
    if (!fs::is_regular_file(each.path) || read_whole(each.path.string()) != each.text) {
      throw Failure(ErrorWord::already_there,
                    fmt::format("{} stands there already and is another; nothing was written. {}", each.path.string(), advice));
    }
    result.kept.push_back(each.path.string());
  }
}

}  // namespace

FolderWritten write_folder(const std::string& folder, const std::vector<FolderFile>& files, std::string_view advice) {
  const fs::path into(folder);
  std::vector<Planned> planned;
  for (const FolderFile& file : files) planned.push_back({into / file.name, file.text});
  FolderWritten result;
  std::vector<Planned> missing;
  refuse_others(into, planned, advice, result, missing);
  const fs::path made = first_missing(into);
  try {
    std::error_code problem;
    fs::create_directories(into, problem);
    if (problem) throw Failure(ErrorWord::cannot_write, fmt::format("The folder {} cannot be made: {}.", folder, problem.message()));
    for (const Planned& each : missing) {
      fs::create_directories(each.path.parent_path());
      write_whole(each.path.string(), each.text);
      result.written.push_back(each.path.string());
    }
  } catch (...) {  // all or nothing: what was written goes again
    std::error_code ignored;
    for (const std::string& path : result.written) fs::remove(path, ignored);
    if (!made.empty()) fs::remove_all(made, ignored);
    throw;
  }
  return result;
}

}  // namespace heatwork::desk
