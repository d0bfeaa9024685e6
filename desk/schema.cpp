#include "desk/schema.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/columns.h"
#include "desk/errors.h"
#include "quantity/read.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/schema.h"

namespace heatwork::desk {

std::string nouns_as_text() {
  std::string out =
      wrapped("A file of the lab is TOML: format = 1, then one table named after what it holds. There are these kinds:", 0, 0);
  for (const std::string_view noun : trade::noun_words) out += fmt::format("  {}\n", noun);
  return out + wrapped("\"heatwork schema program\" shows what may stand in a program's file, as JSON Schema.", 0, 0);
}

trade::Noun noun_named(const std::string& noun) {
  std::string word = noun;
  std::replace(word.begin(), word.end(), '-', ' ');  // "bench-step" is one word on a command line
  if (const auto found = trade::noun_of(word)) return *found;
  const std::string meant = quantity::near_miss(noun, trade::noun_words);
  throw Failure(ErrorWord::unknown_name,
                fmt::format("There is no kind of file \"{}\"{}; there are {}.", trade::for_message(noun, 40),
                            meant.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", meant), fmt::join(trade::noun_words, ", ")));
}

std::string schema_text(const std::string& noun) {
  return trade::schema_of(noun_named(noun));
}

}  // namespace heatwork::desk
