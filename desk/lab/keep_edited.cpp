#include "desk/lab/keep_edited.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "desk/lab/keep.h"
#include "desk/lab/texts_to_keep.h"

namespace heatwork::desk {
namespace {

std::string sentence_of(const std::vector<EditMistake>& mistakes) {
  if (mistakes.empty()) return "What was typed holds a mistake; nothing was kept.";
  const std::string first = mistakes.front().sentence;
  return mistakes.size() == 1 ? fmt::format("{}. Nothing was kept.", first)
                              : fmt::format("{}. There are {} mistakes in all; nothing was kept.", first, mistakes.size());
}

}  // namespace

MistakesTyped::MistakesTyped(std::vector<EditMistake> mistakes)
    : Failure(ErrorWord::bad_value, sentence_of(mistakes)), mistakes_(std::move(mistakes)) {}

KeptRehearsal keep_edited(const EditedFiring& typed, const AskedLab& asked, const std::string& name, const std::string& reason) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    ResolvedEdit resolved = resolve_edited(typed, place, store);
    if (!resolved.request) throw MistakesTyped(std::move(resolved.mistakes));
    trade::ResolvedFiring& found = *resolved.request;
    if (!name.empty()) {
      if (const auto wrong = trade::wrong_name(name)) throw MistakesTyped({{"firing", "name", fmt::format("name: {}", *wrong)}});
      if (name != found.firing.name) found.firing.record.reset();
      found.firing.name = name;
    }
    const auto is_typed = [&](const trade::TextUsed& text) {
      return std::any_of(resolved.changed.begin(), resolved.changed.end(),
                         [&](const TypedOver& each) { return each.of == fmt::format("{} {}", text.kind, text.name); });
    };
    return keep_found(place, store, found, "", reason, [&](records::Store& into, const trade::TextUsed& text, TextsToKeep& texts) {
      if (is_typed(text))
        take_typed(into, text, reason, texts);
      else
        take_text(into, text, texts);
    });
  });
}

}  // namespace heatwork::desk
