#include "desk/lab/index_of.h"

#include <fmt/format.h>

#include <stdexcept>

#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "desk/rehearse_files.h"
#include "trade/choice_words.h"
#include "trade/firing.h"
#include "trade/reader.h"
#include "trade/records.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using records::Index;

/// Letters A to Z only: what other letters become hangs on the machine's language.
std::string in_lower_case(std::string text) {
  for (char& letter : text)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return text;
}

void also(Index& index, std::string_view word) {
  if (!word.empty()) index.words += fmt::format(" {}", word);
}
void also(Index& index, const std::vector<trade::Given<std::string>>& names) {
  for (const auto& name : names) also(index, name.value);
}
void also(Index& index, const std::vector<int>& teeth) {
  for (const int tooth : teeth) also(index, std::to_string(tooth));
}

template <class E>
std::string word_of(E choice) {
  return std::string(trade::choice_word(choice));
}

std::int64_t moment_ms(const std::string& utc) {
  return utc.empty() ? 0 : utc_ms(utc);
}

void due(Index& index, const std::string& on, std::string_view what) {
  if (!on.empty()) index.dues.push_back({on, std::string(what)});
}

/// "dentine@3", or the bare name where the text was none of the store's.
std::string program_of(const trade::Firing& firing) {
  for (const trade::NameUsed& used : firing.record->used)
    if (used.kind == "program" && used.name == firing.program.value && used.version > 0)
      return fmt::format("{}@{}", used.name, used.version);
  return firing.program.value;
}

// What each kind is found by beside its name, label and note.
template <class T>
void more(Index&, const T&) {}

void more(Index& index, const trade::Piece& piece) {
  also(index, piece.teeth);
  if (piece.of_case) also(index, piece.of_case->value);
}

void more(Index& index, const trade::Furnace& furnace) {
  for (const trade::FurnaceDue& each : furnace.dues)
    if (each.done.empty()) due(index, each.on, each.what);
}

/// A firing counts as fired from its start on.
void more(Index& index, const trade::Firing& firing) {
  also(index, firing.furnace.value);
  also(index, firing.program.value);
  for (const auto& on_tray : firing.pieces) also(index, on_tray.piece.value);
  if (!firing.record) return;
  index.state = word_of(firing.record->state.value);
  index.at_ms = moment_ms(firing.record->started.empty() ? firing.record->planned_for : firing.record->started);
  if (firing.record->started.empty()) return;
  for (const auto& on_tray : firing.pieces)
    index.uses.push_back({index.at_ms, on_tray.piece.value, firing.furnace.value, program_of(firing), ""});
}

void more(Index& index, const trade::Lot& lot) {
  also(index, lot.code);
  if (lot.material) also(index, lot.material->value);
  if (lot.liquid) also(index, lot.liquid->value);
  index.state = lot.used_up ? "used up" : "in use";
  if (!lot.used_up) due(index, lot.expires, "expires");
}

void more(Index& index, const trade::Case& one) {
  also(index, one.teeth);
  also(index, one.pieces);
  index.state = one.closed ? "closed" : "open";
  if (!one.closed) due(index, one.wanted, "must leave the lab");
}

void more(Index& index, const trade::BenchStep& step) {
  also(index, step.pieces);
  also(index, step.lots);
  index.state = word_of(step.work.value);
  index.at_ms = moment_ms(step.at);
  for (const auto& piece : step.pieces) {
    if (step.lots.empty()) index.uses.push_back({index.at_ms, piece.value, "", "", ""});
    for (const auto& lot : step.lots) index.uses.push_back({index.at_ms, piece.value, "", "", lot.value});
  }
}

std::string state_of(const trade::Check& check) {
  if (!trade::is_finished(check)) return "going on";
  if (trade::is_undecided(check)) return "cannot tell";
  return check.good ? "good" : "not good";
}

void more(Index& index, const trade::Check& check) {
  also(index, check.furnace.value);
  index.state = state_of(check);
  index.at_ms = moment_ms(check.at);
  // No piece stands in a check; the furnace finds it by this.
  index.uses.push_back({index.at_ms, "", check.furnace.value, "", ""});
  if (trade::is_finished(check)) due(index, check.next, fmt::format("check of {} of {}", word_of(check.of.value), check.furnace.value));
}

void more(Index& index, const trade::Reference& reference) {
  also(index, reference.certificate);
  due(index, reference.expires, "expires");
}

void more(Index& index, const trade::Deviation& deviation) {
  also(index, deviation.from);
  if (deviation.firing) also(index, deviation.firing->value);
  index.state = deviation.released_at.empty() ? word_of(deviation.decision.value) : "released";
  index.at_ms = moment_ms(deviation.found_at);
  for (const auto& piece : deviation.pieces) index.uses.push_back({index.at_ms, piece.value, "", "", ""});
}

void more(Index& index, const trade::Person& person) {
  index.state = person.left ? "left" : word_of(person.role.value);
}

void more(Index& index, const trade::Lock& lock) {
  index.state = lock.locked ? "locked" : "unlocked";
}

template <class T>
Index index_of_noun(const records::Document& document) {
  const T noun = read_kept<T>(trade::source_of(fmt::format("{} {}", document.kind, document.id), document.body));
  if (noun.name != document.id)
    throw std::runtime_error(fmt::format("The text kept as {} {} is that of {}.", document.kind, document.id, noun.name));
  Index index;
  index.label = noun.label;
  index.words = fmt::format("{} {} {}", noun.name, noun.label, noun.note);
  more(index, noun);
  index.words = in_lower_case(std::move(index.words));
  return index;
}

/// A text that a firing was rehearsed with: its name is its own hash, so that it proves itself.
Index index_of_snapshot(const records::Document& document) {
  if (trade::blake2b_256(document.body) != document.id)
    throw std::runtime_error(fmt::format("The text kept as {} {} is not the one of that hash.", document.kind, document.id));
  Index index;
  const auto heading = trade::heading_of(trade::source_of(fmt::format("{} {}", document.kind, document.id), document.body));
  if (heading) index.label = fmt::format("{} {}", trade::word(heading->noun), heading->name);
  index.words = in_lower_case(index.label);
  return index;
}

/// Found by its firing alone, which is all that is read of it: a lab keeps a million of them.
Index index_of_rehearsal(const records::Document& document) {
  if (!document.body.starts_with(fmt::format(R"({{"format":1,"firing":"{}",)", document.id)))
    throw std::runtime_error(fmt::format("What is kept as {} {} is no rehearsal of that firing.", document.kind, document.id));
  Index index;
  index.words = document.id;
  return index;
}

}  // namespace

records::Index index_of(const records::Document& document) {
  if (document.kind == snapshot_kind) return index_of_snapshot(document);
  if (document.kind == rehearsal_kind) return index_of_rehearsal(document);
  const auto noun = trade::noun_of(document.kind);
  if (!noun) throw std::runtime_error(fmt::format("What a {} is found by is not known here.", document.kind));
  return trade::with_type_of(*noun, [&]<class T>(std::type_identity<T>) { return index_of_noun<T>(document); });
}

}  // namespace heatwork::desk
