#include "cli/output.h"

#include <fmt/core.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string>

#include "desk/errors.h"

namespace heatwork::cli {
namespace {

/// 0, or the number of the problem.
int put_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    const ssize_t put = ::write(descriptor, text.data(), text.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(put));
  }
  return 0;
}

std::string_view setting(const char* name) {
  const char* found = std::getenv(name);
  return found == nullptr ? std::string_view() : found;
}

}  // namespace

void put_result(std::string_view text) {
  const int problem = put_all(STDOUT_FILENO, text);
  if (problem != 0 && problem != EPIPE) {
    throw desk::Failure(desk::ErrorWord::cannot_write, fmt::format("Standard output cannot be written: {}.", std::strerror(problem)));
  }
}

void put_note(std::string_view text) {
  (void)put_all(STDERR_FILENO, text);
}

bool result_is_terminal() {
  return ::isatty(STDOUT_FILENO) == 1;
}
bool note_is_terminal() {
  return ::isatty(STDERR_FILENO) == 1;
}

bool colour_wanted() {
  return result_is_terminal() && setting("NO_COLOR").empty() && setting("TERM") != "dumb";
}

bool plain_ascii_wanted() {
  if (!result_is_terminal()) return false;
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const std::string_view locale = setting(name);
    if (locale.empty()) continue;
    return locale.find("UTF-8") == std::string_view::npos && locale.find("utf8") == std::string_view::npos &&
           locale.find("utf-8") == std::string_view::npos;
  }
  return true;
}

}  // namespace heatwork::cli
