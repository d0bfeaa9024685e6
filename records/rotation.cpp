#include "records/rotation.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "records/copy_name.h"
#include "records/durable.h"
#include "records/inside.h"

namespace heatwork::records {

namespace {

constexpr std::int64_t a_day_s = 86'400;

std::vector<std::filesystem::path> files_in(const std::string& folder) {
  std::error_code error;
  std::filesystem::directory_iterator at(folder, error);
  std::vector<std::filesystem::path> files;
  for (; !error && at != std::filesystem::directory_iterator(); at.increment(error)) files.push_back(at->path());
  if (error) {
    throw StoreError(StoreProblem::refused, fmt::format("The folder {} for copies cannot be read: {}.", folder, error.message()));
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

std::vector<CopyFile> copies_in(const std::string& folder, const std::string& store_id) {
  std::vector<CopyFile> copies;
  for (const std::filesystem::path& file : files_in(folder)) {
    if (const auto at_s = time_of_copy(file.filename().string(), store_id)) copies.push_back({file.string(), *at_s});
  }
  std::stable_sort(copies.begin(), copies.end(), [](const CopyFile& one, const CopyFile& other) { return one.at_s > other.at_s; });
  return copies;
}

bool holds_store(const std::string& path, const std::string& store_id) {
  try {
    Store::Inside inside;
    inside.address = {Engine::sqlite, path};
    inside.opening.read_only = true;
    return inside.about("store_id") == store_id;
  } catch (const StoreError&) {
    return false;
  }
}

Dropped drop_oldest(const std::string& folder, const std::string& store_id, int keep, const std::string& made) {
  Dropped dropped;
  if (keep <= 0) return dropped;
  int stay = keep - 1;  // beside the one just made
  for (const CopyFile& copy : copies_in(folder, store_id)) {
    std::error_code ignored;
    if (std::filesystem::equivalent(copy.path, made, ignored)) continue;
    if (!holds_store(copy.path, store_id)) {
      dropped.said.push_back(
          fmt::format("{} is named like a copy of this store and holds none that can be read; it was left alone.", copy.path));
    } else if (stay > 0) {
      --stay;
    } else if (take_away(copy.path)) {
      take_away(copy.path + ".txt");
      dropped.paths.push_back(copy.path);
    } else {
      dropped.said.push_back(fmt::format("The older copy {} cannot be taken away.", copy.path));
    }
  }
  return dropped;
}

std::vector<std::string> sweep_unfinished(const std::string& folder, const std::string& store_id, std::int64_t now_s) {
  std::vector<std::string> said;
  for (const std::filesystem::path& file : files_in(folder)) {
    struct stat found {};
    if (!is_unfinished_copy(file.filename().string(), store_id) || ::stat(file.c_str(), &found) != 0) continue;
    if (found.st_mtime > now_s - a_day_s) continue;
    said.push_back(take_away(file.string())
                       ? fmt::format("{} was begun more than a day before and never finished; it was taken away.", file.string())
                       : fmt::format("{} was never finished and cannot be taken away.", file.string()));
  }
  return said;
}

}  // namespace heatwork::records
