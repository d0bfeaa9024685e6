// Runs the real binary as a person would: in a pipe or on a pseudo-terminal, and keeps what it says and how it ends.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace heatwork::outside {

struct Ended {
  int code = -1;    ///< exit code; -1 where a signal ended it
  int signal = 0;   ///< that signal
  std::string out;  ///< standard output; on a terminal both streams
  std::string err;
};

struct Setting {
  std::string input{};                               ///< standard input, then its end
  std::map<std::string, std::string> environment{};  ///< on top of the test's own, which has no NO_COLOR and UTF-8
  std::filesystem::path folder{};                    ///< working folder; the test's own where empty
  bool terminal = false;                             ///< all three streams are one pseudo-terminal of 100 columns
  std::string output_into{};                         ///< a file or device for standard output in place of a pipe
  bool output_closed = false;                        ///< the reader of standard output goes away before anything is written
  int interrupt_after_ms = -1;                       ///< Ctrl-C after so long; standard input then stays open
};

Ended run(const std::vector<std::string>& words, const Setting& setting = {});

/// A folder of its own for a test, removed afterwards.
class Folder {
 public:
  Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::string at(const std::string& name) const { return (path_ / name).string(); }
  void write(const std::string& name, const std::string& text) const;
  [[nodiscard]] std::string read(const std::string& name) const;
  /// Names of all files in it and below, sorted.
  [[nodiscard]] std::vector<std::string> names() const;

 private:
  std::filesystem::path path_;
};

/// Text with one replacement. Fails the test where there is nothing to replace.
std::string replaced(std::string text, const std::string& from, const std::string& to);

/// Letters of the longest line.
std::size_t widest(const std::string& text);

}  // namespace heatwork::outside
