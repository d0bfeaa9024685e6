#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/firing_work.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/named_values.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/choice_words.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using trade::FiringState;

/// What may follow what; the sentence says what would have to be done first.
void must_be(const trade::Firing& firing, std::initializer_list<FiringState> allowed, std::string_view deed, std::string_view advice) {
  const FiringState state = state_of(firing);
  if (std::find(allowed.begin(), allowed.end(), state) != allowed.end()) return;
  throw Failure(ErrorWord::conflict, fmt::format("Firing {} is \"{}\" and cannot be {}; {}.", firing.name, word(state), deed, advice));
}

/// For sentences.
std::string outcomes_there_are() {
  return fmt::format("{}", fmt::join(trade::choices<trade::PieceOutcome>(), ", "));
}

trade::PieceOutcome outcome_of(const std::string& piece, std::string typed) {
  std::replace(typed.begin(), typed.end(), '-', ' ');
  if (const auto outcome = trade::choice_of<trade::PieceOutcome>(typed)) return *outcome;
  throw Failure(ErrorWord::bad_value,
                fmt::format("{}={}: an outcome is one of {}.", piece, trade::for_message(typed), outcomes_there_are()));
}

template <class T>
trade::Given<T> quantity_of(std::string_view option, const std::string& typed) {
  const auto read = quantity::read<T>(typed);
  if (!read) throw Failure(ErrorWord::bad_value, fmt::format("{}: {}.", option, read.error()));
  return {quantity::canonical(*read), typed, {}};
}

std::vector<trade::PieceFired> results_of(const trade::Firing& firing, const EndWords& words) {
  std::vector<std::string> there;
  for (const auto& on : firing.pieces) there.push_back(on.piece.value);
  const auto outcomes = named_values("An outcome", words.outcomes, there);
  const auto looked_like = named_values("\"Looked like\"", words.looked_like, there);
  const auto seen = named_values("\"Seen\"", words.seen, there);
  std::vector<trade::PieceFired> results;
  for (const std::string& name : there) {
    const auto outcome = outcomes.find(name);
    if (outcome == outcomes.end())
      throw Failure(ErrorWord::bad_value, fmt::format("How did {} come out? Give its outcome, one of {}.", name, outcomes_there_are()));
    trade::PieceFired result;
    result.piece.value = name;
    result.outcome.value = outcome_of(name, outcome->second);
    if (const auto like = looked_like.find(name); like != looked_like.end())
      result.looked_like = quantity_of<quantity::TemperatureDifference>("Looked like, " + name, like->second);
    if (const auto text = seen.find(name); text != seen.end()) result.seen = text->second;
    results.push_back(std::move(result));
  }
  return results;
}

std::optional<trade::MeasuredFiring> measured_of(const EndWords& words) {
  trade::MeasuredFiring measured;
  if (!words.highest_display.empty())
    measured.highest_display = quantity_of<quantity::Temperature>("Highest display", words.highest_display);
  if (!words.hold.empty()) measured.hold = quantity_of<quantity::Duration>("Hold", words.hold);
  if (!words.lowest_pressure.empty()) measured.lowest_pressure = quantity_of<quantity::Pressure>("Lowest pressure", words.lowest_pressure);
  if (!words.duration.empty()) measured.duration = quantity_of<quantity::Duration>("Duration", words.duration);
  const bool any = measured.highest_display || measured.hold || measured.lowest_pressure || measured.duration;
  return any ? std::optional(measured) : std::nullopt;
}

/// Keeps the next version and tells it: what happened, when, by whom.
CareAnswer kept(const StorePlace& place, records::Store& store, const KeptFiring& stands, const trade::Firing& changed,
                const std::string& reason, const std::string& at, std::string more, JsonObject also) {
  const std::string state(word(changed.record->state.value));
  records::Change change;
  change.documents.push_back(next_version(stands, changed, state, reason));
  const records::Kept done = keep(place, store, std::move(change));
  const int version = done.documents.front().version;
  std::string title = state;
  title[0] = static_cast<char>(title[0] - 'a' + 'A');
  JsonObject json{{"format", 1}, {"firing", changed.name}, {"version", version}, {"state", state}, {"at", at}};
  for (auto& member : also) json.push_back(std::move(member));
  json.push_back({"head", done.head});
  return {care_line(title, fmt::format("{}@{}, {}, by {}", changed.name, version, shown_moment(place, at), place.opening.who.person)) +
              more + care_line("Head hash", done.head),
          std::move(json), false};
}

CareAnswer ended(const StorePlace& place, records::Store& store, const KeptFiring& stands, trade::Firing firing) {
  std::string more;
  JsonList results;
  for (const trade::PieceFired& result : firing.record->results) {
    const std::string outcome(trade::choice_word(result.outcome.value));
    std::string said = fmt::format("{}: {}", result.piece.value, outcome);
    if (result.looked_like) said += fmt::format(", looked like {}", quantity::write(result.looked_like->value));
    if (!result.seen.empty()) said += fmt::format(", {}", result.seen);
    more += care_line("Piece", said);
    results.push_back(JsonObject{{"piece", result.piece.value},
                                 {"outcome", outcome},
                                 {"looked_like_K", result.looked_like ? Json(result.looked_like->value.si()) : Json()},
                                 {"seen", result.seen.empty() ? Json() : Json(result.seen)}});
  }
  return kept(place, store, stands, firing, "", firing.record->ended, more, {{"results", std::move(results)}});
}

}  // namespace

CareAnswer end_firing(const AskedLab& asked, const EndWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const KeptFiring stands = kept_firing(store, words.firing);
    trade::Firing firing = stands.firing;
    must_be(firing, {FiringState::started, FiringState::interrupted}, "ended",
            state_of(firing) == FiringState::planned ? "\"heatwork case start\" starts it first" : "it is over already");
    const auto& last = firing.record->interrupted.empty() ? firing.record->started : firing.record->interrupted;
    firing.record->state.value = FiringState::ended;
    firing.record->ended = moment_of(place, words.at, last);
    firing.record->ended_by = place.opening.who.person;
    firing.record->results = results_of(firing, words);
    firing.record->measured = measured_of(words);
    return ended(place, store, stands, std::move(firing));
  });
}

CareAnswer interrupt_firing(const AskedLab& asked, const std::string& name, const std::string& what, const std::string& at) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const KeptFiring stands = kept_firing(store, name);
    trade::Firing firing = stands.firing;
    must_be(firing, {FiringState::started}, "interrupted", "only a started firing can");
    firing.record->state.value = FiringState::interrupted;
    firing.record->interrupted = moment_of(place, at, firing.record->started);
    firing.record->interruption = what;
    return kept(place, store, stands, firing, what, firing.record->interrupted, care_line("What", what), {{"what", what}});
  });
}

CareAnswer call_off_firing(const AskedLab& asked, const std::string& name, const std::string& reason) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const KeptFiring stands = kept_firing(store, name);
    trade::Firing firing = stands.firing;
    must_be(firing, {FiringState::planned}, "called off",
            state_of(firing) == FiringState::started ? "\"heatwork case interrupted\" says that it stopped" : "only a planned firing can");
    if (!firing.record) firing.record.emplace();
    firing.record->state.value = FiringState::called_off;
    return kept(place, store, stands, firing, reason, moment_of(place, ""), care_line("Reason", reason), {{"reason", reason}});
  });
}

}  // namespace heatwork::desk
