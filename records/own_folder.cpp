#include "records/own_folder.h"

#include <fmt/format.h>
#include <stdlib.h>

#include <cerrno>
#include <system_error>

#include "records/durable.h"
#include "records/store_error.h"

namespace heatwork::records {

namespace {

constexpr const char* beginning = ".heatwork-at-work-";

}  // namespace

OwnFolder::OwnFolder(const std::filesystem::path& in) {
  sweep(in, beginning);
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
