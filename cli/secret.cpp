#include "cli/secret.h"

#include <fmt/format.h>
#include <termios.h>
#include <unistd.h>

#include "cli/output.h"
#include "desk/errors.h"

namespace heatwork::cli {
namespace {

constexpr std::size_t longest = 4096;
constexpr char ctrl_c = 3, ctrl_d = 4, ctrl_u = 21, backspace = 8, rubout = 127;

/// The terminal without echo, letter by letter, until this ends: Ctrl-C too is then a letter, so that echo always comes back.
class Unseen {
 public:
  Unseen() {
    ::tcgetattr(STDIN_FILENO, &before_);
    termios now = before_;
    now.c_lflag &= ~static_cast<tcflag_t>(ECHO | ICANON | ISIG);
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &now);
  }
  Unseen(const Unseen&) = delete;
  Unseen& operator=(const Unseen&) = delete;
  ~Unseen() {
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
    put_note("\n");
  }

 private:
  termios before_{};
};

bool next(char& letter) {
  return ::read(STDIN_FILENO, &letter, 1) == 1;
}

void take_back(std::string& line) {
  while (!line.empty() && (static_cast<unsigned char>(line.back()) & 0xC0) == 0x80) line.pop_back();
  if (!line.empty()) line.pop_back();
}

std::string unseen_line(const std::string& what) {
  put_note(what + ": ");
  const Unseen unseen;
  std::string line;
  for (char letter = 0; line.size() < longest && next(letter) && letter != '\n' && letter != '\r';) {
    if (letter == ctrl_c) throw desk::Failure(desk::ErrorWord::stopped, "Stopped. Nothing was kept.");
    if (letter == ctrl_d) break;
    if (letter == ctrl_u) {
      line.clear();
    } else if (letter == backspace || letter == rubout) {
      take_back(line);
    } else {
      line += letter;
    }
  }
  return line;
}

std::string line_of_input() {
  std::string line;
  for (char letter = 0; line.size() < longest && next(letter) && letter != '\n';) line += letter;
  if (line.ends_with('\r')) line.pop_back();
  return line;
}

}  // namespace

std::string typed_secret(const std::string& what) {
  std::string typed;
  if (::isatty(STDIN_FILENO) == 0) {
    typed = line_of_input();
  } else {
    typed = unseen_line(what);
    if (unseen_line("The same again") != typed)
      throw desk::Failure(desk::ErrorWord::bad_value, "The two are not the same. Nothing was kept.");
  }
  if (typed.empty())
    throw desk::Failure(desk::ErrorWord::bad_value,
                        fmt::format("{} is missing: type it, or give it as one line of standard input. Nothing was kept.", what));
  return typed;
}

}  // namespace heatwork::cli
