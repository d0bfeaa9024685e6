#include "desk/lab/deviations.h"

#include <fmt/format.h>

#include <utility>

#include "desk/errors.h"
#include "desk/lab/clock.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "quantity/read.h"
#include "trade/choice_words.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

struct Standing {
  trade::Deviation deviation;
  int version = 0;
};

void check_name(const std::string& name) {
  if (const auto wrong = trade::wrong_name(name)) throw Failure(ErrorWord::bad_value, fmt::format("Name of a deviation: {}", *wrong));
}

Standing standing(records::Store& store, const std::string& name) {
  const auto found = store.find("deviation", name);
  if (!found) throw Failure(ErrorWord::unknown_name, fmt::format("No deviation \"{}\" is kept. Nothing was kept.", name));
  return {read_kept<trade::Deviation>(trade::source_of("deviation " + name, found->body)), found->version};
}

/// A name that is mistyped would never be found again.
void check_kept(records::Store& store, std::string_view kind, const std::string& name) {
  if (!store.find(kind, name))
    throw Failure(ErrorWord::unknown_name, fmt::format("No {} \"{}\" is kept in this store. Nothing was kept.", kind, name));
}

std::string_view word(trade::DeviationDecision decision) {
  return trade::choice_word(decision);
}

trade::DeviationDecision decision_of(const std::string& typed) {
  const auto words = trade::choices<trade::DeviationDecision>();
  if (const auto decision = trade::choice_of<trade::DeviationDecision>(typed)) return *decision;
  const std::string meant = quantity::near_miss(typed, words);
  throw Failure(ErrorWord::bad_value,
                fmt::format("The decision is \"{}\"; allowed are {}{}. Nothing was kept.", typed, fmt::join(words, ", "),
                            meant.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", meant)));
}

void check_not_released(const StorePlace& place, const Standing& stands) {
  const auto& [deviation, version] = stands;
  if (!deviation.released_by.empty())
    throw Failure(ErrorWord::conflict,
                  fmt::format("Deviation {} was released by {} on {} ({}), in version {}. Nothing was kept.", deviation.name,
                              deviation.released_by, local_text(utc_ms(deviation.released_at), place.zone), place.zone, version));
}

CareAnswer kept_answer(const StorePlace& place, const trade::Deviation& deviation, const records::Kept& kept) {
  const int version = kept.documents.front().version;
  const bool released = !deviation.released_by.empty();
  std::string text = care_line("Kept", fmt::format("deviation {}, version {}", deviation.name, version)) +
                     care_line("Left", deviation.from) + care_line("Found", deviation.found) +
                     care_line("Decision", word(deviation.decision.value));
  if (!deviation.reason.empty()) text += care_line("Reason", deviation.reason);
  if (!deviation.trial.empty()) text += care_line("Trial", deviation.trial);
  text += care_line("Released", released ? fmt::format("by {} on {} ({})", deviation.released_by,
                                                       local_text(utc_ms(deviation.released_at), place.zone), place.zone)
                                         : "not yet");
  return {text + care_line("Head hash", kept.head),
          JsonObject{{"format", 1},
                     {"deviation", deviation.name},
                     {"version", version},
                     {"decision", word(deviation.decision.value)},
                     {"found_at", deviation.found_at},
                     {"found_by", deviation.found_by},
                     {"released_at", deviation.released_at},
                     {"released_by", deviation.released_by},
                     {"head", kept.head}},
          false};
}

CareAnswer kept(const StorePlace& place, records::Store& store, const trade::Deviation& deviation, int after, std::string_view action,
                const std::string& reason) {
  records::NewVersion version;
  version.kind = "deviation";
  version.id = deviation.name;
  version.after = after;
  version.body = trade::write_noun(deviation);
  version.action = action;
  version.reason = reason;
  // Read back as a file would be, for what contradicts itself: a release before the finding, a name that is none.
  static_cast<void>(read_kept<trade::Deviation>(trade::source_of("deviation " + deviation.name, version.body)));
  records::Change change;
  change.documents = {version};
  return kept_answer(place, deviation, keep(place, store, std::move(change)));
}

}  // namespace

CareAnswer open_deviation(const AskedLab& asked, const DeviationFound& found) {
  check_name(found.name);
  const StorePlace place = place_of(asked);
  trade::Deviation deviation;
  deviation.name = found.name;
  deviation.from = found.from;
  deviation.found = found.found;
  if (!found.firing.empty()) deviation.firing.emplace().value = found.firing;
  for (const auto& piece : found.pieces) deviation.pieces.emplace_back().value = piece;
  deviation.found_at = found.at.empty() ? utc_text(clock_of_machine().now_ms()) : utc_text(typed_ms(found.at, place.zone));
  deviation.found_by = place.opening.who.person;
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    if (!found.firing.empty()) check_kept(store, "firing", found.firing);
    for (const auto& piece : found.pieces) check_kept(store, "piece", piece);
    return kept(place, store, deviation, 0, "added", found.reason);
  });
}

CareAnswer decide_deviation(const AskedLab& asked, const DeviationDecided& decided) {
  check_name(decided.name);
  const auto decision = decision_of(decided.decision);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    Standing stands = standing(store, decided.name);
    check_not_released(place, stands);
    stands.deviation.decision.value = decision;
    stands.deviation.reason = decided.reason;
    if (!decided.trial.empty()) stands.deviation.trial = decided.trial;
    return kept(place, store, stands.deviation, stands.version, "decided", decided.reason);
  });
}

CareAnswer release_deviation(const AskedLab& asked, const std::string& name, const std::string& reason) {
  check_name(name);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    Standing stands = standing(store, name);
    check_not_released(place, stands);
    if (stands.deviation.decision.value == trade::DeviationDecision::open)
      throw Failure(ErrorWord::conflict, fmt::format("Nothing is decided of deviation {} yet, so nothing is released. Nothing was kept; "
                                                     "the decision comes first.",
                                                     name));
    stands.deviation.released_by = place.opening.who.person;
    stands.deviation.released_at = utc_text(clock_of_machine().now_ms());
    return kept(place, store, stands.deviation, stands.version, "released", reason);
  });
}

}  // namespace heatwork::desk
