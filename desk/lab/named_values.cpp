#include "desk/lab/named_values.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/errors.h"
#include "trade/mistake.h"

namespace heatwork::desk {

std::map<std::string, std::string> named_values(std::string_view option, const std::vector<std::string>& words,
                                                const std::vector<std::string>& allowed) {
  std::map<std::string, std::string> values;
  for (const std::string& word : words) {
    const std::size_t at = word.find('=');
    const std::string name = word.substr(0, at);
    if (at == std::string::npos || name.empty() || at + 1 == word.size())
      throw Failure(ErrorWord::bad_value, fmt::format("{} \"{}\" is not NAME=VALUE; NAME is one of {}.", option, trade::for_message(word),
                                                      fmt::join(allowed, ", ")));
    if (std::find(allowed.begin(), allowed.end(), name) == allowed.end())
      throw Failure(ErrorWord::bad_value,
                    fmt::format("{} names \"{}\", which was not on the tray; there {} {}.", option, trade::for_message(name),
                                allowed.size() == 1 ? "was" : "were", fmt::join(allowed, ", ")));
    if (!values.emplace(name, word.substr(at + 1)).second)
      throw Failure(ErrorWord::bad_value, fmt::format("{} is given twice for {}; each piece has one.", option, name));
  }
  return values;
}

}  // namespace heatwork::desk
