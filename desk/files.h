// Files read whole and written whole: nothing half-written ever stands under the name asked for.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

namespace heatwork::desk {

/// Largest request that is read from a file or from standard input. [byte]
inline constexpr std::size_t largest_request = std::size_t{1} << 26;

/// The bytes of a file. Errors: Failure file_not_found or cannot_read with one sentence; bad_value where it is a folder or too large.
std::string read_whole(const std::string& path);
/// The bytes of an open descriptor up to its end; `name` is what sentences call it. Errors: as above.
std::string read_whole(int descriptor, const std::string& name);

/// Writes to a temporary file beside `path`, brings it to the disk and renames it; on failure nothing is left and what stood there stays.
/// What is no regular file (a pipe, a device) is written straight. Errors: Failure cannot_write or file_not_found with one sentence.
void write_whole(const std::string& path, std::string_view bytes);

/// The same for what is written part by part. It stands under its name once `done` has returned, on the disk; else nothing is left.
/// Errors of all: as of write_whole.
class WholeFile {
 public:
  explicit WholeFile(const std::string& path);
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile();
  void put(std::string_view bytes);
  void done();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

/// The temporary file being written, "" when none: whoever ends the process at once removes it. Safe in a signal handler.
const char* unfinished_file();

}  // namespace heatwork::desk
