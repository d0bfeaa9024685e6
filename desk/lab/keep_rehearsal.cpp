#include "desk/lab/keep_rehearsal.h"

#include <fmt/format.h>

#include <utility>

#include "desk/errors.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/lab/store_shelf.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using trade::FiringState;

constexpr std::string_view firing_kind = trade::word(trade::Noun::firing);

void refuse_if_over(const trade::Firing& stands) {
  if (!stands.record || stands.record->state.value == FiringState::planned) return;
  throw Failure(
      ErrorWord::conflict,
      fmt::format("Firing {} is \"{}\" in the store and is not planned again; nothing was kept. Give the new firing a name of its "
                  "own.",
                  stands.name, word(stands.record->state.value)));
}

struct Plan {
  std::optional<records::NewVersion> next;  ///< absent: it stands as it is
  int version = 0;
  std::string body;  ///< of that version
};

/// The firing as it is planned, after what stands in the store.
Plan planned(records::Store& store, const trade::Firing& firing, int from, const std::string& reason) {
  const auto stands = store.find(firing_kind, firing.name);
  Plan plan;
  plan.version = stands ? stands->version + 1 : 1;
  bool differs = false;
  if (stands) {
    const trade::Firing before = firing_of(*stands);
    refuse_if_over(before);
    differs = text_without_record(before) != text_without_record(firing);
    if (!differs && before.record) {
      plan.version = stands->version;
      plan.body = stands->body;
      return plan;
    }
  }
  if (differs && reason.empty())
    throw Failure(ErrorWord::conflict, fmt::format("Firing {} differs from version {} in the store; nothing was kept. Say why, "
                                                   "and it becomes version {}.",
                                                   firing.name, stands->version, plan.version));
  trade::Firing kept = firing;
  if (!kept.record) kept.record.emplace().state.value = FiringState::planned;
  refuse_if_over(kept);
  records::NewVersion next;
  next.kind = firing_kind;
  next.id = kept.name;
  next.after = !stands ? 0 : from > 0 ? from : stands->version;
  next.body = plan.body = trade::write_noun(kept);
  if (firing.place.source) next.typed = firing.place.source->text;
  next.action = "planned";
  next.reason = reason;
  plan.next = std::move(next);
  return plan;
}

Rehearsed rehearsed_as_kept(records::Store& store, const RehearsedAt& at, const Plan& plan, TextsToKeep& texts,
                            const trade::ResolvedFiring& found, const std::string& file) {
  const trade::Firing firing = firing_of({std::string(firing_kind), found.firing.name, plan.version, plan.body, "", ""});
  Rehearsed out;
  try {
    trade::ResolvedFiring as_kept = with_kept_texts(store, at, firing, texts, found);
    out = file.empty() ? rehearse_by_limits(std::move(as_kept), limits_kept_with(store, firing.name))
                       : rehearse_found(std::move(as_kept), file, {});
  } catch (const trade::Mistake&) {
    (void)rehearse_found(found, file, {});  // says the same at the person's own line
    throw;
  }
  for (const trade::TextUsed& text : out.rehearsal.request.used)
    if (text.kind == "limits") take_text(store, text, texts);
  return out;
}

std::string told(const report::KeptAs& kept, bool firing_is_new, bool rehearsal_is_new) {
  const auto line = [](std::string_view what, const std::string& name, int version, bool is_new) {
    return care_line(what, fmt::format("{}@{}{}", name, version, is_new ? "" : ", stood there already"));
  };
  std::string text = "Kept\n" + line("Firing", kept.firing, kept.version, firing_is_new) +
                     line("Rehearsal", kept.firing, kept.rehearsal, rehearsal_is_new);
  std::string added;
  for (const std::string& each : kept.added) added += (added.empty() ? "" : ", ") + each;
  if (!added.empty()) text += care_line("Added", added);
  for (const std::string& sentence : kept.differ) text += care_line("Differs", sentence);
  return text + care_line("Head hash", kept.head);
}

}  // namespace

std::optional<records::NewVersion> next_rehearsal(records::Store& store, const RehearsalDocument& rehearsal, int& version) {
  records::NewVersion next;
  next.kind = rehearsal_kind;
  next.id = rehearsal.firing;
  next.body = write_rehearsal_document(rehearsal);
  const auto stands = store.find(rehearsal_kind, rehearsal.firing);
  version = stands ? stands->version : 0;
  if (stands && stands->body == next.body) return std::nullopt;
  next.after = version++;
  next.action = "rehearsed";
  return next;
}

KeptRehearsal keep_found(const StorePlace& place, records::Store& store, const FoundToKeep& firing, const TakeText& take) {
  KeptRehearsal out;
  const trade::ResolvedFiring& found = firing.found;
  Plan plan = planned(store, found.firing, firing.from, firing.reason);  // what cannot be kept is said before anything is computed
  TextsToKeep texts;
  for (const trade::TextUsed& text : found.used) take(store, text, texts);
  out.rehearsed = rehearsed_as_kept(store, rehearsed_at(place), plan, texts, found, firing.file);
  report::KeptAs& kept = out.kept;
  kept.firing = found.firing.name;
  kept.version = plan.version;
  kept.added = std::move(texts.added);
  kept.differ = std::move(texts.differ);
  auto rehearsal = next_rehearsal(store, rehearsal_document(out.rehearsed, plan.version, std::move(texts.used)), kept.rehearsal);
  const bool firing_is_new = plan.next.has_value(), rehearsal_is_new = rehearsal.has_value();
  records::Change change;
  change.documents = std::move(texts.documents);
  if (plan.next) change.documents.push_back(std::move(*plan.next));
  if (rehearsal) change.documents.push_back(std::move(*rehearsal));
  kept.head = keep(place, store, std::move(change)).head;
  kept.is_new = firing_is_new || rehearsal_is_new;
  out.text = told(kept, firing_is_new, rehearsal_is_new);
  return out;
}

KeptRehearsal rehearse_and_keep(const std::string& firing, const AskedLab& asked, const std::string& reason) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    const trade::ResolvedFiring found = found_in_lab(firing, place, &store);
    return keep_found(place, store, {found, file_of_firing(firing), reason}, take_text);
  });
}

}  // namespace heatwork::desk
