#include "desk/lab/keep_edited.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "desk/lab/keep.h"
#include "desk/lab/kept_conflict.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"
#include "desk/lab/texts_to_keep.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

std::string sentence_of(const std::vector<EditMistake>& mistakes) {
  if (mistakes.empty()) return "What was typed holds a mistake; nothing was kept.";
  const std::string first = mistakes.front().sentence;
  return mistakes.size() == 1 ? fmt::format("{}. Nothing was kept.", first)
                              : fmt::format("{}. There are {} mistakes in all; nothing was kept.", first, mistakes.size());
}

/// What of it was typed over; nullptr where that text stands as it was.
const TypedOver* typed_over(const ResolvedEdit& resolved, const trade::TextUsed& text) {
  const auto found = std::find_if(resolved.changed.begin(), resolved.changed.end(),
                                  [&](const TypedOver& each) { return each.of == fmt::format("{} {}", text.kind, text.name); });
  return found == resolved.changed.end() ? nullptr : &*found;
}

/// The text as it would have been kept of what somebody else changed meanwhile.
std::string text_of(const trade::ResolvedFiring& found, const ChangedMeanwhile::Versions& of) {
  for (const trade::TextUsed& text : found.used)
    if (text.kind == of.kind && text.name == of.name) return kept_text(text.source).body;
  trade::Firing firing = found.firing;
  if (!firing.record) firing.record.emplace().state.value = trade::FiringState::planned;
  return trade::write_noun(firing);
}

MistakesTyped taken(trade::Noun noun, const std::string& name, int version) {
  return MistakesTyped({{std::string(trade::file_word(noun)), "name",
                         fmt::format("{} is kept already, in version {}; give this one a name of its own", titled(noun, name), version)}});
}

// Under a name of its own nothing must become the next version of another; the same again is no other.

void refuse_firing_of_another(records::Store& store, trade::Firing firing) {
  const auto stands = store.find(trade::word(trade::Noun::firing), firing.name);
  if (!stands) return;
  auto before = read_kept<trade::Firing>(kept_source(*stands));
  before.record.reset();
  firing.record.reset();
  if (trade::write_noun(before) != trade::write_noun(firing)) throw taken(trade::Noun::firing, firing.name, stands->version);
}

void refuse_program_of_another(records::Store& store, const ResolvedEdit& resolved, const std::string& name) {
  for (const trade::TextUsed& text : resolved.request->used) {
    if (text.kind != trade::word(trade::Noun::program) || text.name != name) continue;
    const TypedOver* over = typed_over(resolved, text);
    if (over == nullptr || over->from > 0) continue;
    const auto stands = store.find(text.kind, text.name);
    if (stands && stands->body != kept_text(text.source).body) throw taken(trade::Noun::program, name, stands->version);
  }
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
      const bool own = name == found.firing.name;
      found.firing.name = name;
      if (!own) {
        found.firing.record.reset();
        resolved.firing_from = 0;
        refuse_firing_of_another(store, found.firing);
      }
    }
    if (!typed.program_name.empty()) refuse_program_of_another(store, resolved, typed.program_name);
    const auto take = [&](records::Store& into, const trade::TextUsed& text, TextsToKeep& texts) {
      if (const TypedOver* typed_here = typed_over(resolved, text))
        take_typed(into, text, typed_here->from, reason, texts);
      else
        take_text(into, text, texts);
    };
    try {
      return keep_found(place, store, {found, "", reason, resolved.firing_from}, take);
    } catch (const ChangedMeanwhile& conflict) {
      refuse_conflict(store, conflict, text_of(found, conflict.versions()));
    }
  });
}

}  // namespace heatwork::desk
