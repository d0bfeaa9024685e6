#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/firing_work.h"
#include "desk/lab/keep.h"
#include "desk/lab/keep_rehearsal.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/local_time.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/lab/store_shelf.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using trade::FiringState;

void must_be_planned(const StorePlace& place, const trade::Firing& firing) {
  const FiringState state = state_of(firing);
  if (state == FiringState::planned) return;
  const std::string since = state == FiringState::called_off
                                ? ""
                                : fmt::format(", started {} by {}", shown_moment(place, firing.record->started), firing.record->started_by);
  throw Failure(ErrorWord::conflict, fmt::format("Firing {} is \"{}\"{}; only a planned firing is started. Give a new firing a name of its "
                                                 "own.",
                                                 firing.name, word(state), since));
}

void past_must_be_fired(records::Store& store, const trade::Firing& firing, std::vector<std::string>& notes) {
  for (const auto& name : firing.after) {
    const auto document = store.find(trade::word(trade::Noun::firing), name.value);
    if (!document) continue;  // said where it is sought
    const trade::Firing before = firing_of(*document);
    if (!before.record) {
      notes.push_back(fmt::format("Of firing {}, which came before, no record is kept: when it was fired is not known.", name.value));
      continue;
    }
    const FiringState state = state_of(before);
    if (state == FiringState::planned || state == FiringState::called_off)
      throw Failure(ErrorWord::conflict,
                    fmt::format("Firing {} comes after {}, which was not fired: it is \"{}\".", firing.name, name.value, word(state)));
  }
}

/// Asked again under the writers' lock, so that of two that start at once one is refused.
void must_be_free(records::Store& store, const StorePlace& place, const trade::Firing& firing) {
  if (const auto other = firing_in_furnace(store, firing.furnace.value))
    throw Failure(ErrorWord::conflict, fmt::format("Furnace {} is in use: firing {} was started {} and is not ended.", firing.furnace.value,
                                                   other->name, shown_moment(place, other->record->started)));
  for (const auto& on : firing.pieces) piece_must_be_free(store, place, on.piece.value);
}

std::string stood_for(const TextStoodFor& text) {
  return text.name.version > 0 ? fmt::format("version {}", text.name.version)
                               : fmt::format("\"{}\"", text.from.empty() ? "a text from elsewhere" : text.from);
}

/// What is another text now than when the firing was rehearsed and kept.
void note_changes(const std::vector<TextStoodFor>& before, const std::vector<TextStoodFor>& now, std::vector<std::string>& notes) {
  for (const TextStoodFor& text : now)
    for (const TextStoodFor& was : before)
      if (was.name.kind == text.name.kind && was.name.name == text.name.name &&
          (was.name.version != text.name.version || was.name.snapshot != text.name.snapshot))
        notes.push_back(fmt::format("{} {} was {} when the firing was rehearsed and is {} now.", text.name.kind, text.name.name,
                                    stood_for(was), stood_for(text)));
  for (const TextStoodFor& text : now) {
    const auto same = [&](const TextStoodFor& was) { return was.name.kind == text.name.kind && was.name.name == text.name.name; };
    if (text.name.kind == trade::word(trade::Noun::check) && std::none_of(before.begin(), before.end(), same))
      notes.push_back(
          fmt::format("Check {} was not known when the firing was rehearsed and kept; it is started with what it tells.", text.name.name));
  }
}

/// Firings of a piece that this one does not name are not in its state: that is said, never left out silently.
void note_unnamed_past(records::Store& store, const trade::Firing& firing, std::vector<std::string>& notes) {
  for (const auto& on : firing.pieces) {
    const std::string name = on.was ? on.was->value : on.piece.value;
    for (const auto& use : store.uses_of(name).rows) {
      if (use.kind != trade::word(trade::Noun::firing) || use.id == firing.name) continue;
      if (std::any_of(firing.after.begin(), firing.after.end(), [&](const auto& each) { return each.value == use.id; })) continue;
      notes.push_back(
          fmt::format("{} was in firing {}, which this firing does not name under \"after\": it is computed as if that had not "
                      "been.",
                      name, use.id));
    }
  }
}

struct Started {
  trade::Firing firing;
  TextsToKeep texts;
  Rehearsed rehearsed;
  std::vector<std::string> notes;
};

void rehearse_as_started(records::Store& store, const StorePlace& place, const trade::Firing& plan, Started& started) {
  const RehearsedAt at{utc_ms(plan.record->started), place.zone};
  const trade::ResolvedFiring found = found_in_lab(plan.name, place, &store, at.now_ms);
  for (const trade::TextUsed& text : found.used) take_text(store, text, started.texts);
  std::shared_ptr<const trade::Source> limits;
  if (const auto kept = store.find(rehearsal_kind, plan.name)) {
    const auto before = read_rehearsal_document(kept->body).used;
    limits = limits_of(store, before);
    note_changes(before, started.texts.used, started.notes);
  }
  started.rehearsed = rehearse_by_limits(with_kept_texts(store, at, plan, started.texts, found), limits);
  started.firing = plan;
  for (const TextStoodFor& text : started.texts.used) started.firing.record->used.push_back(text.name);
  for (const trade::TextUsed& text : started.rehearsed.rehearsal.request.used)
    if (text.kind == "limits") take_text(store, text, started.texts);
}

JsonList used_json(const trade::FiringRecord& record) {
  JsonList all;
  for (const trade::NameUsed& used : record.used)
    all.push_back(JsonObject{{"kind", used.kind},
                             {"name", used.name},
                             {"version", used.version > 0 ? Json(used.version) : Json()},
                             {"snapshot", used.snapshot.empty() ? Json() : Json(used.snapshot)}});
  return all;
}

CareAnswer told(const StorePlace& place, const Started& started, int version, int rehearsal, const std::string& head) {
  const trade::Firing& firing = started.firing;
  const auto pinned = [&](std::string_view kind, const std::string& name) {
    for (const trade::NameUsed& used : firing.record->used)
      if (used.kind == kind && used.name == name && used.version > 0) return fmt::format("{}@{}", name, used.version);
    return name + " (as it ships)";
  };
  std::string pieces;
  for (const auto& on : firing.pieces) pieces += (pieces.empty() ? "" : ", ") + pinned("piece", on.piece.value);
  const verdict::Finding* first = started.rehearsed.verdict.findings.empty() ? nullptr : &started.rehearsed.verdict.findings.front();
  std::string text = care_line("Started", fmt::format("{}@{}, {}, by {}", firing.name, version, shown_moment(place, firing.record->started),
                                                      firing.record->started_by)) +
                     care_line("Furnace", pinned("furnace", firing.furnace.value)) +
                     care_line("Program", pinned("program", firing.program.value)) + care_line("Tray", pinned("tray", firing.tray.value)) +
                     care_line("Pieces", pieces);
  if (first != nullptr) text += care_line("Rehearsal", fmt::format("{}: {}", verdict::word(first->level), first->sentence));
  for (const std::string& note : started.notes) text += care_line("Note", note);
  text += care_line("Head hash", head);
  return {text,
          JsonObject{{"format", 1},
                     {"firing", firing.name},
                     {"version", version},
                     {"state", std::string(word(FiringState::started))},
                     {"started", firing.record->started},
                     {"started_by", firing.record->started_by},
                     {"used", used_json(*firing.record)},
                     {"rehearsal", rehearsal},
                     {"level", first != nullptr ? Json(verdict::word(first->level)) : Json()},
                     {"sentence", first != nullptr ? Json(first->sentence) : Json()},
                     {"notes", JsonList(started.notes.begin(), started.notes.end())},
                     {"head", head}},
          false};
}

}  // namespace

CareAnswer start_firing(const AskedLab& asked, const StartWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const KeptFiring stands = kept_firing(store, words.firing);
    trade::Firing plan = stands.firing;
    must_be_planned(place, plan);
    Started started;
    past_must_be_fired(store, plan, started.notes);
    must_be_free(store, place, plan);
    if (!plan.record) plan.record.emplace();
    plan.record->state.value = FiringState::started;
    plan.record->started = moment_of(place, words.at);
    plan.record->started_by = place.opening.who.person;
    plan.record->read_back = words.read_back;
    plan.record->used.clear();
    note_unnamed_past(store, plan, started.notes);
    rehearse_as_started(store, place, plan, started);
    records::Change change;
    change.documents = std::move(started.texts.documents);
    change.documents.push_back(next_version(stands, started.firing, "started"));
    const int version = stands.document.version + 1;
    int rehearsal = 0;
    if (auto next = next_rehearsal(store, rehearsal_document(started.rehearsed, version, started.texts.used), rehearsal))
      change.documents.push_back(std::move(*next));
    change.allow = [&](records::Store& standing) { must_be_free(standing, place, plan); };
    const std::string head = keep(place, store, std::move(change)).head;
    return told(place, started, version, rehearsal, head);
  });
}

}  // namespace heatwork::desk
