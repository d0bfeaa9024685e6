#include "cli/run.h"

#include <fmt/core.h>

#include <exception>
#include <string_view>

#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/request.h"
#include "desk/errors.h"
#include "desk/lab/settings.h"
#include "trade/words.h"

namespace heatwork::cli {

namespace {

/// "--language de" is asked for before anything is read, so that what is wrong with the rest is said in it too; else the setting, which may
/// stand in a file with a mistake.
trade::Language language_of_errors(const std::vector<std::string>& words) {
  constexpr std::string_view option = "--language";
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::string_view said;
    if (words[i] == option && i + 1 < words.size()) said = words[i + 1];
    if (words[i].starts_with("--language=")) said = std::string_view(words[i]).substr(option.size() + 1);
    if (const auto language = trade::language_of(said)) return *language;
  }
  return trade::language_of(desk::language_of_settings(desk::variables_of_process())).value_or(trade::Language::english);
}

}  // namespace

int run(const std::vector<std::string>& words) {
  watch_interrupts();
  try {
    return read_request(words)();
  } catch (...) {
    const desk::Shown shown = desk::explain_in(std::current_exception(), language_of_errors(words));
    put_note(shown.sentence.ends_with('\n') ? shown.sentence : shown.sentence + "\n");
    return shown.exit_code;
  }
}

}  // namespace heatwork::cli
