#include "desk/files.h"

#include <fcntl.h>
#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <climits>
#include <cstring>
#include <filesystem>
#include <optional>
#include <utility>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

// A plain array, because a signal handler may read it at any moment; its first byte is set last and cleared first.
std::array<char, PATH_MAX> unfinished{};

std::string because(int problem) {
  if (problem == ENOSPC || problem == EDQUOT) return "the disk is full";
  return std::strerror(problem);
}

/// Closes what it holds.
class Descriptor {
 public:
  explicit Descriptor(int descriptor) : descriptor_(descriptor) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  [[nodiscard]] int get() const { return descriptor_; }
  [[nodiscard]] int close() { return ::close(std::exchange(descriptor_, -1)); }

 private:
  int descriptor_;
};

/// Holds the temporary file's name for the signal handler, and removes the file unless it was renamed.
class Unfinished {
 public:
  explicit Unfinished(const std::string& path) : path_(path) {
    if (path.size() + 1 > unfinished.size()) return;
    std::memcpy(unfinished.data() + 1, path.data() + 1, path.size() - 1);
    unfinished[path.size()] = '\0';
    unfinished[0] = path[0];
  }
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  ~Unfinished() {
    if (!done_) ::unlink(path_.c_str());
    unfinished[0] = '\0';
  }
  void done() { done_ = true; }

 private:
  std::string path_;
  bool done_ = false;
};

[[noreturn]] void cannot_write(const std::string& path, int problem) {
  const ErrorWord error = problem == ENOENT || problem == ENOTDIR ? ErrorWord::file_not_found : ErrorWord::cannot_write;
  throw Failure(error, fmt::format("{} cannot be written: {}.", path, because(problem)));
}

/// 0, or the number of the problem.
int put_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(descriptor, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  return 0;
}

/// The name itself must outlive a power cut too.
void sync_folder(const std::filesystem::path& file, const std::string& path) {
  const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  // A folder that may be written but not read, and a file system that keeps no such promise, have none to give.
  if (opened.get() < 0) return;
  if (::fsync(opened.get()) != 0 && errno != EINVAL && errno != EBADF) cannot_write(path, errno);
}

}  // namespace

const char* unfinished_file() {
  return unfinished.data();
}

std::string read_whole(int descriptor, const std::string& name) {
  std::string bytes;
  std::array<char, 65536> part{};
  while (true) {
    const ssize_t got = ::read(descriptor, part.data(), part.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0 && errno == EISDIR) throw Failure(ErrorWord::bad_value, fmt::format("{} is a folder; a file is expected.", name));
    if (got < 0) throw Failure(ErrorWord::cannot_read, fmt::format("{} cannot be read: {}.", name, because(errno)));
    if (got == 0) return bytes;
    bytes.append(part.data(), static_cast<std::size_t>(got));
    if (bytes.size() > largest_request) {
      throw Failure(ErrorWord::bad_value, fmt::format("{} is larger than {} MB; nothing so large is read.", name, largest_request >> 20));
    }
  }
}

std::string read_whole(const std::string& path) {
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) {
    const ErrorWord error =
        errno == ENOENT || errno == ENOTDIR || errno == ENAMETOOLONG ? ErrorWord::file_not_found : ErrorWord::cannot_read;
    throw Failure(error, fmt::format("{} cannot be read: {}.", path, because(errno)));
  }
  return read_whole(file.get(), path);
}

struct WholeFile::Parts {
  std::string path;
  std::filesystem::path target, beside;
  std::optional<Unfinished> unfinished_one;  ///< none: a pipe or a device, written straight
  std::optional<Descriptor> file;
};

WholeFile::WholeFile(const std::string& path) : parts_(std::make_unique<Parts>()) {
  struct stat before {};
  const bool there = ::stat(path.c_str(), &before) == 0;
  if (there && S_ISDIR(before.st_mode)) cannot_write(path, EISDIR);
  parts_->path = path;
  if (there && !S_ISREG(before.st_mode)) {
    parts_->file.emplace(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
    if (parts_->file->get() < 0) cannot_write(path, errno);
    return;
  }
  // A name that is a link keeps being one: the file it leads to is replaced.
  parts_->target = there ? std::filesystem::canonical(path) : std::filesystem::path(path);
  parts_->beside = parts_->target.parent_path() / fmt::format(".{}.{}.unfinished", parts_->target.filename().string(), ::getpid());
  parts_->unfinished_one.emplace(parts_->beside.string());
  parts_->file.emplace(::open(parts_->beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, there ? before.st_mode & 0777 : 0666));
  if (parts_->file->get() < 0) cannot_write(path, errno);
}

WholeFile::~WholeFile() = default;

void WholeFile::put(std::string_view bytes) {
  if (const int problem = put_all(parts_->file->get(), bytes)) cannot_write(parts_->path, problem);
}

void WholeFile::done() {
  const std::string& path = parts_->path;
  if (!parts_->unfinished_one) {
    if (parts_->file->close() != 0) cannot_write(path, errno);
    return;
  }
  if (::fsync(parts_->file->get()) != 0) cannot_write(path, errno);
  if (parts_->file->close() != 0) cannot_write(path, errno);
  if (::rename(parts_->beside.c_str(), parts_->target.c_str()) != 0) cannot_write(path, errno);
  parts_->unfinished_one->done();
  sync_folder(parts_->target, path);
}

void write_whole(const std::string& path, std::string_view bytes) {
  WholeFile file(path);
  file.put(bytes);
  file.done();
}

}  // namespace heatwork::desk
