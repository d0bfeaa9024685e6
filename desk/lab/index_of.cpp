#include "desk/lab/index_of.h"

#include <fmt/format.h>

#include <stdexcept>

#include "desk/lab/kept_text.h"

namespace heatwork::desk {
namespace {

/// Letters A to Z only: what other letters become hangs on the machine's language.
std::string in_lower_case(std::string text) {
  for (char& letter : text)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return text;
}

}  // namespace

records::Index index_of(const records::Document& document) {
  if (!trade::noun_of(document.kind)) throw std::runtime_error(fmt::format("What a {} is found by is not known here.", document.kind));
  const KeptText kept = kept_text(trade::source_of(fmt::format("{} {}", document.kind, document.id), document.body));
  if (kept.noun != *trade::noun_of(document.kind) || kept.name != document.id)
    throw std::runtime_error(
        fmt::format("The text kept as {} {} is that of {} {}.", document.kind, document.id, trade::word(kept.noun), kept.name));
  records::Index index;
  index.label = kept.label;
  index.words = in_lower_case(fmt::format("{} {} {}", kept.name, kept.label, kept.note));
  return index;
}

}  // namespace heatwork::desk
