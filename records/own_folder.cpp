#include "records/own_folder.h"

#include <fmt/format.h>
#include <stdlib.h>

#include <cerrno>
#include <chrono>
#include <system_error>

#include "records/store_error.h"

namespace heatwork::records {

namespace {

constexpr const char* beginning = ".heatwork-at-work-";

void sweep(const std::filesystem::path& in) {
  std::error_code ignored;
  for (const auto& found : std::filesystem::directory_iterator(in, ignored)) {
    if (!found.path().filename().string().starts_with(beginning)) continue;
    const auto age = std::filesystem::file_time_type::clock::now() - found.last_write_time(ignored);
    if (age > std::chrono::hours(24)) std::filesystem::remove_all(found.path(), ignored);
  }
}

}  // namespace

OwnFolder::OwnFolder(const std::filesystem::path& in) {
  sweep(in);
  path_ = (in / (std::string(beginning) + "XXXXXX")).string();
  if (::mkdtemp(path_.data()) != nullptr) return;
  const bool full = errno == ENOSPC || errno == EDQUOT;
  throw StoreError(full ? StoreProblem::full : StoreProblem::refused,
                   fmt::format("Nothing can be written in the folder {}: {}.", in.string(), std::generic_category().message(errno)));
}

OwnFolder::~OwnFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

}  // namespace heatwork::records
