// The example every format page holds: a file of each kind of noun for tests.
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "trade/noun.h"

namespace heatwork::trade {

inline std::string path_of_page(Noun noun) {
  return std::string(HEATWORK_SOURCE_DIR) + "/docs/formats/" + file_word(noun) + ".md";
}

inline std::string text_of_page(Noun noun) {
  std::stringstream text;
  text << std::ifstream(path_of_page(noun)).rdbuf();
  return text.str();
}

/// Errors: std::runtime_error where the page holds none.
inline std::string example_of_page(Noun noun) {
  const std::string page = text_of_page(noun);
  const auto start = page.find("```toml\n");
  if (start == std::string::npos) throw std::runtime_error(path_of_page(noun) + " holds no example");
  return page.substr(start + 8, page.find("```", start + 8) - start - 8);
}

}  // namespace heatwork::trade
