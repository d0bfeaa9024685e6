#include "records/durable.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "records/store_error.h"

namespace heatwork::records {

namespace {

[[noreturn]] void fail(const std::string& path, int error) {
  const bool full = error == ENOSPC || error == EDQUOT || error == EFBIG || error == EIO;
  throw StoreError(full ? StoreProblem::full : StoreProblem::refused,
                   full ? fmt::format("{} cannot be written: the disk is full, a limit of size is reached, or the disk fails.", path)
                        : fmt::format("{} cannot be written: {}.", path, std::generic_category().message(error)));
}

/// Closes what it opened.
class Descriptor {
 public:
  Descriptor(const std::string& path, int flags) : path_(path), number_(::open(path.c_str(), flags | O_CLOEXEC, 0600)) {
    if (number_ < 0) fail(path_, errno);
  }
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  void write(std::string_view text) const {
    while (!text.empty()) {
      const ssize_t written = ::write(number_, text.data(), text.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) fail(path_, errno);
      text.remove_prefix(static_cast<std::size_t>(written));
    }
  }
  void sync() const {
    // Some file systems cannot sync a folder and say so; what they can do is done then.
    if (::fsync(number_) != 0 && errno != EINVAL) fail(path_, errno);
  }

 private:
  std::string path_;
  int number_;
};

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

}  // namespace

void sync_file(const std::string& path) {
  Descriptor(path, O_RDONLY).sync();
}

void sync_folder_of(const std::string& path) {
  Descriptor(folder_of(path), O_RDONLY | O_DIRECTORY).sync();
}

void give_name(const std::string& unfinished_path, const std::string& path) {
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) {
    throw StoreError(StoreProblem::already_there, fmt::format("{} stands already; nothing was written over it.", path));
  }
  if (std::rename(unfinished_path.c_str(), path.c_str()) != 0) fail(path, errno);
  sync_folder_of(path);
}

void write_whole(const std::string& path, std::string_view text) {
  const std::string part = path + std::string(unfinished);
  try {
    const Descriptor file(part, O_WRONLY | O_CREAT | O_TRUNC);
    file.write(text);
    file.sync();
  } catch (...) {
    take_away(part);
    throw;
  }
  if (std::rename(part.c_str(), path.c_str()) != 0) {
    const int error = errno;
    take_away(part);
    fail(path, error);
  }
  sync_folder_of(path);
}

bool take_away(const std::string& path) {
  return ::unlink(path.c_str()) == 0 || errno == ENOENT;
}

}  // namespace heatwork::records
