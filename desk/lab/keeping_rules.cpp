#include "desk/lab/keeping_rules.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/errors.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"
#include "trade/records.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

template <class T>
T noun_in(const std::string& kind, const std::string& name, const std::string& body) {
  return read_kept<T>(trade::source_of(fmt::format("{} {}", kind, name), body));
}

void check_lock(records::Store& store, const records::NewVersion& version) {
  const auto locked = locked_because(store, version.kind, version.id);
  if (!locked) return;
  throw Failure(ErrorWord::not_allowed,
                fmt::format("{} {} is locked: {}. Nothing was kept; who may release unlocks it.", version.kind, version.id, *locked));
}

/// A release stands for the words it was given to: while it stands they stand, and with it they may only go as a whole.
void check_released(const records::NewVersion& version, const trade::Deviation& before, const trade::Deviation& after) {
  const bool withdrawn = after.released_by.empty();
  if (before.released_by.empty() || withdrawn || trade::write_noun(before) == trade::write_noun(after)) return;
  throw Failure(
      ErrorWord::not_allowed,
      fmt::format("Deviation {} was released by {} as it stands and is not changed under that signature. Nothing was kept; who may "
                  "release withdraws the release first (released_at and released_by go).",
                  version.id, before.released_by));
}

/// A decision and a release are a person's own: nobody signs for another.
void check_deviation(records::Store& store, const Asker& asker, const records::NewVersion& version) {
  const auto deviation = noun_in<trade::Deviation>(version.kind, version.id, version.body);
  trade::Deviation before;
  if (const auto stands = store.find(version.kind, version.id)) before = noun_in<trade::Deviation>(version.kind, version.id, stands->body);
  if (deviation.decision.value != before.decision.value || deviation.released_by != before.released_by)
    needs(asker, trade::PersonRole::release);
  check_released(version, before, deviation);
  const bool signs = deviation.released_by != before.released_by && !deviation.released_by.empty();
  if (!asker.nobody_entered && signs && deviation.released_by != asker.code)
    throw Failure(ErrorWord::not_allowed, fmt::format("Deviation {} would be released by \"{}\", but \"{}\" keeps it; nobody signs for "
                                                      "another. Nothing was kept.",
                                                      version.id, deviation.released_by, asker.code));
}

/// What was fired, without what people call it and what became of it.
std::string what_was_fired(trade::Firing firing) {
  firing.label.clear();
  firing.note.clear();
  return text_without_record(firing);
}

/// A firing that was started stays what it was: else nobody could say any more what its pieces went through.
void check_firing(records::Store& store, const records::NewVersion& version) {
  const auto stands = store.find(version.kind, version.id);
  if (!stands) return;
  const trade::Firing before = firing_of(*stands);
  if (!before.record || before.record->started.empty()) return;
  const auto now = noun_in<trade::Firing>(version.kind, version.id, version.body);
  const bool same_start = now.record && now.record->started == before.record->started &&
                          now.record->started_by == before.record->started_by && same_texts_used(*now.record, *before.record);
  if (same_start && what_was_fired(now) == what_was_fired(before)) return;
  throw Failure(ErrorWord::conflict, fmt::format("Firing {} was started {} by {}: what it was, when and with what it was fired is not "
                                                 "changed any more. Nothing was kept; give another firing a name of its own.",
                                                 version.id, before.record->started, before.record->started_by));
}

bool may_set_up(const std::string& name, const std::string& body) {
  const auto person = noun_in<trade::Person>("person", name, body);
  return person.may_set_up.value && !person.left;
}

/// Of those who stand and those to be kept, one at least must be able to enter persons; else nobody ever could again.
bool somebody_may_set_up(records::Store& store, const std::vector<records::NewVersion>& documents) {
  const auto changed = [&](const std::string& name) {
    return std::any_of(documents.begin(), documents.end(), [&](const auto& each) { return each.kind == "person" && each.id == name; });
  };
  for (const auto& each : documents)
    if (each.kind == "person" && may_set_up(each.id, each.body)) return true;
  records::HeadQuery persons;
  persons.kind = "person";
  for (bool more = true; more; ++persons.page) {
    const auto page = store.heads(persons);
    for (const auto& head : page.rows)
      if (!changed(head.id) && may_set_up(head.id, store.find("person", head.id)->body)) return true;
    more = static_cast<std::int64_t>(persons.page) * records::rows_a_page < page.count;
  }
  return false;
}

/// A store is that of one lab, and one to play with never becomes one of a lab's own records, nor the other way round.
void check_lab(records::Store& store, const records::NewVersion& version, const std::vector<records::NewVersion>& documents) {
  const auto refuse_another = [&](const std::string& name) {
    if (name != version.id)
      throw Failure(ErrorWord::conflict,
                    fmt::format("This store is that of one lab, kept as lab {}; another, {}, is not kept beside it.", name, version.id));
  };
  for (const auto& each : documents)
    if (each.kind == "lab") refuse_another(each.id);
  records::HeadQuery labs;
  labs.kind = "lab";
  for (const auto& head : store.heads(labs).rows) refuse_another(head.id);
  const auto stands = store.find("lab", version.id);
  if (!stands || noun_in<trade::Lab>("lab", version.id, stands->body).demo == noun_in<trade::Lab>("lab", version.id, version.body).demo)
    return;
  throw Failure(ErrorWord::bad_value, "Whether a lab is there to play with (demo) stays what it was when it was first kept.");
}

void check_documents(records::Store& store, const Asker& asker, const std::vector<records::NewVersion>& documents) {
  bool persons = false;
  for (const auto& version : documents) {
    const bool person = version.kind == "person";
    persons = persons || person;
    if (person || version.kind == "lab")
      needs_set_up(asker);
    else
      needs(asker, version.kind == "lock" ? trade::PersonRole::release : trade::PersonRole::fire);
    check_lock(store, version);
    if (version.kind == "lab") check_lab(store, version, documents);
    if (version.kind == "deviation") check_deviation(store, asker, version);
    if (version.kind == "firing") check_firing(store, version);
  }
  if (!persons || somebody_may_set_up(store, documents)) return;
  throw Failure(ErrorWord::bad_value,
                asker.nobody_entered
                    ? "The first person entered must be one who may set up (may_set_up = true); else nobody could enter the "
                      "next. Nothing was kept."
                    : "Nobody could set up any more: one person at least has may_set_up = true and has not left. Nothing was kept.");
}

/// Data that tells who somebody is: his own he may change himself, the rest and the erasing is for those who set up.
void check_personal(const Asker& asker, const records::Personal& personal) {
  if (personal.code != asker.code || personal.body.empty())
    needs_set_up(asker);
  else
    needs(asker, trade::PersonRole::look);
}

}  // namespace

void check_keeping(records::Store& store, const Asker& asker, const records::Change& change) {
  check_documents(store, asker, change.documents);
  for (const auto& personal : change.personal) check_personal(asker, personal);
  if (!change.photos.empty()) needs(asker, trade::PersonRole::fire);
  if (!change.erase_photos.empty()) needs_set_up(asker);
}

}  // namespace heatwork::desk
