// How a verb of the command line is declared: its words, what they fill, what is wrong with them, and what is then done.
//
// Each group of verbs is a file of its own, NAME_verbs.cpp, with one function that is declared in cli/verbs.h and called in
// cli/request.cpp. Parsing ends in one plain request with one check; nothing is done before all words are read and found right.
// Only verb.cpp sees the library that parses. An example:
//
//   struct LotUseUpRequest {
//     desk::AskedLab lab;
//     std::string name, reason;
//     bool json = false;
//   };
//
//   void add_lot(Verb& heatwork) {
//     Verb lot = heatwork.verb("lot", "Jars, bottles and blocks on the shelf", "lot list");
//     Verb use_up = lot.verb("use-up", "Say that a lot is used up", "lot use-up dentine-7 --reason \"jar empty\"");
//     const auto asked = std::make_shared<LotUseUpRequest>();
//     use_up.value("NAME", asked->name, "the lot");
//     use_up.reason(asked->reason, Need::required);
//     use_up.store(asked->lab);  // --store and --as
//     use_up.json(asked->json);
//     use_up.does([asked] { return answer(*asked); }, [asked] { return what_is_wrong(*asked); });  // "" where nothing is
//   }
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "desk/lab/asked.h"

// The library's own type is named and never looked into here: its headers are slow to read.
namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace heatwork::cli {

inline constexpr int done = 0;
inline constexpr int fault_expected = 1;  ///< or a check failed

/// What was chosen: does it and gives the exit code.
using Deed = std::function<int()>;
/// One clause that says what is wrong with a request and what is allowed, without a full stop; "" where nothing is.
using Check = std::function<std::string()>;

enum class Need { optional, required };

/// What the verbs of the program are for. A verb that names none stands under "Subcommands".
enum class Heading { firing_work, things_of_the_lab, records, looking_up };

class Chosen;

/// One verb, or the program itself with its verbs below it. What an option fills must live as long as the deed: keep the request in a
/// std::shared_ptr that the deed holds.
class Verb {
 public:
  Verb(CLI::App& app, Chosen& chosen) : app_(&app), chosen_(&chosen) {}

  /// A verb below this one. Purpose: at most 70 letters, without full stop; example: without "heatwork ", more may follow, a line each.
  Verb verb(const std::string& name, const std::string& purpose, const std::string& example);
  /// The heading under which the help of the program lists this verb; headings stand in the order in which they are first used.
  void under(Heading heading);

  // By its place. Help: at most 68 letters.
  void value(const std::string& name, std::string& into, const std::string& help, Need need = Need::required);
  /// One or more, to the end of the words.
  void values(const std::string& name, std::vector<std::string>& into, const std::string& help, Need need = Need::required);

  // By its name, "--piece". Type: what stands for the value in the help, "NAME".
  void option(const std::string& name, const std::string& type, std::string& into, const std::string& help, Need need = Need::optional);
  void option(const std::string& name, const std::string& type, std::optional<std::string>& into, const std::string& help);
  /// May be given several times, a value each.
  void option(const std::string& name, const std::string& type, std::vector<std::string>& into, const std::string& help,
              Need need = Need::optional);
  /// A whole number; anything else, and one outside least to most, is refused.
  void number(const std::string& name, const std::string& type, int& into, int least, int most, const std::string& help);
  void flag(const std::string& name, bool& into, const std::string& help);

  // What many verbs share, always under the same word.
  void json(bool& into, const std::string& help = "as JSON");
  /// --store and --as.
  void store(desk::AskedLab& into);
  /// --at: when it happened, where that is not now.
  void at(std::string& into);
  /// --reason: why, for the trail.
  void reason(std::string& into, Need need = Need::optional);
  /// --page, from 1.
  void page(int& into);

  /// What the verb does once its words are read. A verb with verbs below it needs none: one of those must then be given.
  void does(Deed deed, Check check = {});

  [[nodiscard]] CLI::App& app() const { return *app_; }

 private:
  CLI::App* app_;
  Chosen* chosen_;
};

/// Errors: always desk::Failure wrong_use: "heatwork PATH: WHAT; "heatwork PATH --help" shows how it is used."
/// Path: "" or " person add".
[[noreturn]] void refuse(const std::string& path, const std::string& what);

/// Reads the words with the verbs that `add` declares. Errors: desk::Failure wrong_use.
Deed read_verbs(const std::vector<std::string>& words, const std::function<void(Verb&)>& add);

}  // namespace heatwork::cli
