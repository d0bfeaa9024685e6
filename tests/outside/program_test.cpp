#include "program.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace heatwork::outside {
namespace {

/// Both ends of a pipe.
struct Pipe {
  int read_end = -1, write_end = -1;
  Pipe() {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe can be made");
    read_end = ends[0];
    write_end = ends[1];
  }
};

[[noreturn]] void become_the_program(const std::vector<std::string>& words, const Setting& setting) {
  ::unsetenv("NO_COLOR");
  ::setenv("LC_ALL", "C.UTF-8", 1);
  ::setenv("TERM", "xterm", 1);
  for (const auto& [name, value] : setting.environment) ::setenv(name.c_str(), value.c_str(), 1);
  if (!setting.folder.empty() && ::chdir(setting.folder.c_str()) != 0) ::_exit(126);
  ::signal(SIGPIPE, SIG_DFL);
  std::vector<std::string> all{HEATWORK_BINARY};
  all.insert(all.end(), words.begin(), words.end());
  std::vector<char*> arguments;
  for (std::string& word : all) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  ::execv(HEATWORK_BINARY, arguments.data());
  ::_exit(127);
}

/// Reads up to the end of all descriptors, each into its text; a key is pressed when its time has come.
void read_all(std::vector<std::pair<int, std::string*>> from, pid_t child, int interrupt_after_ms) {
  const auto begun = std::chrono::steady_clock::now();
  bool pressed = interrupt_after_ms < 0;
  while (!from.empty()) {
    std::vector<pollfd> wanted;
    for (const auto& [descriptor, text] : from) wanted.push_back({descriptor, POLLIN, 0});
    ::poll(wanted.data(), wanted.size(), 20);
    if (!pressed && std::chrono::steady_clock::now() - begun > std::chrono::milliseconds(interrupt_after_ms)) {
      pressed = true;
      ::kill(child, SIGINT);
    }
    for (std::size_t i = wanted.size(); i-- > 0;) {
      if (wanted[i].revents == 0) continue;
      std::array<char, 4096> part{};
      const ssize_t got = ::read(wanted[i].fd, part.data(), part.size());
      if (got > 0) {
        from[i].second->append(part.data(), static_cast<std::size_t>(got));
      } else {
        from.erase(from.begin() + static_cast<std::ptrdiff_t>(i));
      }
    }
  }
}

void finish(pid_t child, Ended& ended) {
  int status = 0;
  ::waitpid(child, &status, 0);
  if (WIFEXITED(status)) ended.code = WEXITSTATUS(status);
  if (WIFSIGNALED(status)) ended.signal = WTERMSIG(status);
}

Ended run_on_terminal(const std::vector<std::string>& words, const Setting& setting) {
  winsize size{30, 100, 0, 0};
  int terminal = -1;
  const pid_t child = ::forkpty(&terminal, nullptr, nullptr, &size);
  if (child == 0) become_the_program(words, setting);
  if (!setting.input.empty()) {
    EXPECT_GT(::write(terminal, setting.input.data(), setting.input.size()), 0);
  }
  Ended ended;
  read_all({{terminal, &ended.out}}, child, setting.interrupt_after_ms);
  finish(child, ended);
  ::close(terminal);
  return ended;
}

}  // namespace

Ended run(const std::vector<std::string>& words, const Setting& setting) {
  if (setting.terminal) return run_on_terminal(words, setting);
  Pipe in, out, err;
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(in.read_end, STDIN_FILENO);
    ::dup2(err.write_end, STDERR_FILENO);
    const int into = setting.output_into.empty() ? out.write_end : ::open(setting.output_into.c_str(), O_WRONLY);
    ::dup2(into, STDOUT_FILENO);
    become_the_program(words, setting);
  }
  ::close(in.read_end);
  ::close(out.write_end);
  ::close(err.write_end);
  if (setting.output_closed) ::close(out.read_end);
  std::signal(SIGPIPE, SIG_IGN);
  std::string_view left = setting.input;
  while (!left.empty()) {
    const ssize_t put = ::write(in.write_end, left.data(), left.size());
    if (put <= 0) break;
    left.remove_prefix(static_cast<std::size_t>(put));
  }
  if (setting.interrupt_after_ms < 0) ::close(in.write_end);
  Ended ended;
  std::vector<std::pair<int, std::string*>> streams{{err.read_end, &ended.err}};
  if (!setting.output_closed) streams.emplace_back(out.read_end, &ended.out);
  read_all(streams, child, setting.interrupt_after_ms);
  finish(child, ended);
  ::close(err.read_end);
  if (!setting.output_closed) ::close(out.read_end);
  if (setting.interrupt_after_ms >= 0) ::close(in.write_end);
  return ended;
}

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "heatwork-outside-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder can be made");
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

void Folder::write(const std::string& name, const std::string& text) const {
  std::filesystem::create_directories((path_ / name).parent_path());
  std::ofstream(path_ / name, std::ios::binary) << text;
}

std::string Folder::read(const std::string& name) const {
  std::ifstream file(path_ / name, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(path_)) {
    if (entry.is_regular_file()) found.push_back(entry.path().lexically_relative(path_).string());
  }
  std::sort(found.begin(), found.end());
  return found;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

std::size_t widest(const std::string& text) {
  std::istringstream lines(text);
  std::size_t most = 0;
  for (std::string line; std::getline(lines, line);) {
    const auto letters = std::count_if(line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
    most = std::max(most, static_cast<std::size_t>(letters));
  }
  return most;
}

TEST(Program, SaysItsVersionAndForWhomItIs) {
  const Ended ended = run({"--version"});
  EXPECT_EQ(ended.code, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_EQ(ended.out.substr(0, 9), "heatwork ");
  for (const char* words : {"Calculated aid for trained people.", "Not a medical device."})
    EXPECT_NE(ended.out.find(words), std::string::npos);
  EXPECT_LE(widest(ended.out), 100U);
}

/// The verbs that a help text lists, under whatever headings.
std::vector<std::string> verbs_in(const std::string& help) {
  std::vector<std::string> found;
  std::istringstream lines(help);
  bool of_verbs = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.ends_with(":")) of_verbs = line != "Options:" && line != "Positionals:" && line != "Example:";
    if (of_verbs && line.starts_with("  ") && line.size() > 2 && line[2] != ' ') found.push_back(line.substr(2, line.find(' ', 2) - 2));
  }
  return found;
}

void expect_help_of(const std::vector<std::string>& verb, std::size_t& count) {
  std::vector<std::string> words = verb;
  words.emplace_back("--help");
  const Ended ended = run(words);
  EXPECT_EQ(ended.code, 0);
  EXPECT_NE(ended.out.find("Example:\n  heatwork "), std::string::npos) << ended.out;
  EXPECT_LE(widest(ended.out), 100U) << ended.out;
  ++count;
  for (const std::string& below : verbs_in(ended.out)) {
    words = verb;
    words.push_back(below);
    expect_help_of(words, count);
  }
}

TEST(Program, EveryVerbHelpsWithAnExample) {
  std::size_t count = 0;
  expect_help_of({}, count);
  EXPECT_GT(count, 18U) << "the verbs are found in the help";
}

TEST(Program, HelpListsItsVerbsByWhatTheyAreFor) {
  const std::string help = run({"--help"}).out;
  std::size_t last = 0;
  for (const char* words : {"\nFiring:\n  rehearse ", "\nThings of the lab:\n", "\nRecords:\n", "\nLooking up:\n"}) {
    const std::size_t at = help.find(words);
    ASSERT_NE(at, std::string::npos) << words << help;
    EXPECT_GT(at, last) << words;
    last = at;
  }
  EXPECT_EQ(help.find("Subcommands:"), std::string::npos) << "every verb stands under a heading\n" << help;
  const std::string below = run({"store", "--help"}).out;
  EXPECT_NE(below.find("\nSubcommands:\n"), std::string::npos) << "headings are those of the program alone\n" << below;
}

TEST(Program, ListsItsVerbsWhereNoneIsGiven) {
  const Ended ended = run({});
  EXPECT_EQ(ended.code, 2);
  EXPECT_EQ(ended.out, "");
  EXPECT_EQ(ended.err,
            "heatwork: one of these is missing: rehearse, demo, serve, program, furnace, instruction, tray, support, liquid, alloy, piece, "
            "firing, case, lot, bench-step, check, reference, deviation, person, lab, lock, material, store, calculate, schema, manual; "
            "\"heatwork --help\" shows how it is used.\n");
}

TEST(Program, WrongUseIsOneSentenceAndEndsWith2) {
  const std::vector<std::pair<std::vector<std::string>, std::string>> cases = {
      {{"rehearze"}, "heatwork: \"rehearze\" is not known here (did you mean \"rehearse\"?); \"heatwork --help\" shows how it is used.\n"},
      {{"rehearse"}, "heatwork rehearse: FILE is missing; \"heatwork rehearse --help\" shows how it is used.\n"},
      {{"rehearse", "a.toml", "--jsn"},
       "heatwork rehearse: \"--jsn\" is not known here (did you mean \"--json\"?); \"heatwork rehearse --help\" shows how it is used.\n"},
      {{"rehearse", "a.toml", "--picture"},
       "heatwork rehearse: --picture takes exactly one value; \"heatwork rehearse --help\" shows how it is used.\n"},
      {{"rehearse", "a.toml", "--units", "kelvin"},
       "heatwork rehearse: --units is \"kelvin\", but must be celsius or fahrenheit; \"heatwork rehearse --help\" shows how it is used.\n"},
      {{"rehearse", "a.toml", "--picture", "a.jpg"}, "A picture's name must end in .svg, .png or .pdf, and \"a.jpg\" does not.\n"},
      {{"calculate"}, "heatwork calculate: NAME is missing, or --list; \"heatwork calculate --help\" shows how it is used.\n"},
      {{"material", "show", "zirconia-vener"},
       "There is no material \"zirconia-vener\" (did you mean \"zirconia-veneer\"?); \"heatwork material list\" shows all that ship.\n"},
      {{"schema", "furnance"},
       "There is no kind of file \"furnance\" (did you mean \"furnace\"?); there are program, instruction, furnace, tray, support, "
       "material, liquid, piece, firing, alloy, lot, case, bench step, check, reference, deviation, person, lock, lab.\n"}};
  for (const auto& [words, sentence] : cases) {
    const Ended ended = run(words);
    EXPECT_EQ(ended.code, 2);
    EXPECT_EQ(ended.out, "");
    EXPECT_EQ(ended.err, sentence);
  }
}

}  // namespace heatwork::outside
