#include "records/durable.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
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
  Descriptor(const std::string& path, int flags) : path_(path), number_(::open(path.c_str(), flags | O_CLOEXEC, 0640)) {
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
  std::size_t read(std::string& into) const {
    for (;;) {
      const ssize_t count = ::read(number_, into.data(), into.size());
      if (count >= 0) return static_cast<std::size_t>(count);
      if (errno != EINTR) {
        throw StoreError(errno == EIO ? StoreProblem::damaged : StoreProblem::refused,
                         fmt::format("{} cannot be read: {}.", path_, std::generic_category().message(errno)));
      }
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
  int answer = ::renameat2(AT_FDCWD, unfinished_path.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE);
  if (answer != 0 && (errno == EINVAL || errno == ENOSYS)) {
    // Not every file system can do that at one stroke.
    std::error_code ignored;
    const bool stands = std::filesystem::exists(std::filesystem::symlink_status(path, ignored));
    answer = stands ? -1 : std::rename(unfinished_path.c_str(), path.c_str());
    if (stands) errno = EEXIST;
  }
  if (answer != 0 && errno == EEXIST) {
    throw StoreError(StoreProblem::already_there, fmt::format("Something stands at {} already; nothing was written over it.", path));
  }
  if (answer != 0) fail(path, errno);
  sync_folder_of(path);
}

void write_whole(const std::string& path, std::string_view text) {
  try {
    const Descriptor file(path, O_WRONLY | O_CREAT | O_TRUNC);
    file.write(text);
    file.sync();
  } catch (...) {
    take_away(path);
    throw;
  }
}

void copy_whole(const std::string& from, const std::string& to) {
  const Descriptor source(from, O_RDONLY);
  const Descriptor target(to, O_WRONLY | O_CREAT | O_EXCL);
  std::string bytes(1U << 20U, '\0');
  while (const std::size_t count = source.read(bytes)) target.write(std::string_view(bytes).substr(0, count));
  target.sync();
}

void sweep(const std::filesystem::path& folder, std::string_view beginning) {
  std::error_code ignored;
  for (const auto& found : std::filesystem::directory_iterator(folder, ignored)) {
    if (!found.path().filename().string().starts_with(beginning)) continue;
    const auto age = std::filesystem::file_time_type::clock::now() - found.last_write_time(ignored);
    if (age > std::chrono::hours(24)) std::filesystem::remove_all(found.path(), ignored);
  }
}

bool take_away(const std::string& path) {
  return ::unlink(path.c_str()) == 0 || errno == ENOENT;
}

}  // namespace heatwork::records
