#include "cli/language.h"

#include <fmt/format.h>

#include "desk/lab/lab_settings.h"

namespace heatwork::cli {

std::string wrong_language(const std::string& asked) {
  return asked.empty() || trade::language_of(asked) ? "" : fmt::format("--language is \"{}\", but must be en or de", asked);
}

trade::Language language_asked(const std::string& asked, const desk::AskedLab& lab) {
  return trade::language_of(asked.empty() ? desk::lab_settings(lab).language : asked).value_or(trade::Language::english);
}

}  // namespace heatwork::cli
