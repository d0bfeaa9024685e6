#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/bench_work.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "trade/choice_words.h"
#include "trade/library.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using trade::Noun;

constexpr std::string_view piece_kind = trade::word(Noun::piece);
constexpr std::string_view step_kind = trade::word(Noun::bench_step);

/// The changed pieces, each as the version after the one that stands.
std::vector<records::NewVersion> changed_pieces(records::Store& store, const StepWords& words) {
  std::vector<records::NewVersion> changed;
  for (const std::string& file : words.piece_files) {
    const auto source = trade::source_from_file(file);
    const KeptText kept = kept_text(source);
    if (kept.noun != Noun::piece)
      throw Failure(ErrorWord::bad_value, fmt::format("{} holds {}, but a step changes pieces.", file, trade::with_article(kept.noun)));
    if (std::find(words.pieces.begin(), words.pieces.end(), kept.name) == words.pieces.end())
      throw Failure(ErrorWord::bad_value, fmt::format("{} is piece {}, which the step does not name.", file, kept.name));
    const bool twice = std::any_of(changed.begin(), changed.end(), [&](const auto& each) { return each.id == kept.name; });
    if (twice) throw Failure(ErrorWord::bad_value, fmt::format("Piece {} stands in two files; one step changes it once.", kept.name));
    const auto stands = store.find(piece_kind, kept.name);
    if (stands && stands->body == kept.body)
      throw Failure(ErrorWord::bad_value, fmt::format("{} says the same as piece {}, version {}; leave the file out where the step "
                                                      "changes nothing that counts.",
                                                      file, kept.name, stands->version));
    records::NewVersion next;
    next.kind = piece_kind;
    next.id = kept.name;
    next.after = stands ? stands->version : 0;
    next.body = kept.body;
    next.typed = source->text;
    next.action = stands ? "changed" : "added";
    next.reason = fmt::format("bench step {}: {}", words.name, words.work);
    changed.push_back(std::move(next));
  }
  return changed;
}

trade::BenchWork work_of(const std::string& word) {
  if (const auto work = trade::choice_of<trade::BenchWork>(word)) return *work;
  throw Failure(ErrorWord::bad_value, fmt::format("The work is \"{}\", but must be one of {}.", trade::for_message(word),
                                                  fmt::join(trade::choices<trade::BenchWork>(), ", ")));
}

/// Lots there are; one that is used up cannot be used, one that has expired is told.
void check_lots(records::Store& store, const StorePlace& place, const StepWords& words, const std::string& at,
                std::vector<std::string>& notes) {
  for (const std::string& name : words.lots) {
    const auto document = store.find(trade::word(Noun::lot), name);
    if (!document)
      throw Failure(ErrorWord::unknown_name, not_kept(store, trade::word(Noun::lot), name, "a lot is entered before it is used."));
    const auto lot = read_kept<trade::Lot>(trade::source_of(fmt::format("lot {}", name), document->body));
    if (lot.used_up) throw Failure(ErrorWord::conflict, fmt::format("Lot {} is used up; nothing was kept.", name));
    if (!lot.expires.empty() && local_day(utc_ms(at), place.zone) > lot.expires)
      notes.push_back(fmt::format("Lot {} had expired on {}.", name, lot.expires));
  }
}

void check_pieces(records::Store& store, const StorePlace& place, const StepWords& words, const std::vector<records::NewVersion>& changed) {
  for (const std::string& name : words.pieces) {
    const bool is_new = std::any_of(changed.begin(), changed.end(), [&](const auto& each) { return each.id == name; });
    if (!is_new && !store.find(piece_kind, name))
      throw Failure(ErrorWord::unknown_name, not_kept(store, piece_kind, name, "enter it first, or give its file with the step."));
    piece_must_be_free(store, place, name);
  }
}

trade::BenchStep step_of(const StorePlace& place, const StepWords& words) {
  if (const auto wrong = trade::wrong_name(words.name))
    throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" is no name of a bench step: {}.", trade::for_message(words.name), *wrong));
  trade::BenchStep step;
  step.name = words.name;
  step.note = words.note;
  step.work.value = work_of(words.work);
  for (const std::string& piece : words.pieces) step.pieces.push_back({piece, piece, {}});
  for (const std::string& lot : words.lots) step.lots.push_back({lot, lot, {}});
  step.at = moment_of(place, words.at);
  step.person = place.opening.who.person;
  return step;
}

JsonList list_of(const std::vector<std::string>& all) {
  return {all.begin(), all.end()};
}

}  // namespace

CareAnswer record_step(const AskedLab& asked, const StepWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    const trade::BenchStep step = step_of(place, words);
    if (const auto stands = store.find(step_kind, step.name))
      throw Failure(ErrorWord::conflict, fmt::format("Bench step {} stands already; give this one a name of its own.", step.name));
    std::vector<std::string> notes;
    records::Change change;
    change.documents = changed_pieces(store, words);
    check_lots(store, place, words, step.at, notes);
    check_pieces(store, place, words, change.documents);
    std::string pieces;
    JsonList changed;
    for (const auto& piece : change.documents) {
      pieces += fmt::format("{}{}@{}", pieces.empty() ? "" : ", ", piece.id, piece.after + 1);
      changed.push_back(JsonObject{{"piece", piece.id}, {"version", piece.after + 1}});
    }
    records::NewVersion next;
    next.kind = step_kind;
    next.id = step.name;
    next.body = trade::write_noun(step);
    next.action = "added";
    (void)read_kept<trade::BenchStep>(trade::source_of(fmt::format("bench step {}", step.name), next.body));
    const auto changed_documents = change.documents;
    change.documents.push_back(std::move(next));
    change.allow = [&](records::Store& standing) { check_pieces(standing, place, words, changed_documents); };
    const std::string head = keep(place, store, std::move(change)).head;
    std::string text =
        care_line("Kept", fmt::format("bench step {}@1, {}: {}, {}, by {}", step.name, words.work,
                                      fmt::format("{}", fmt::join(words.pieces, ", ")), shown_moment(place, step.at), step.person));
    if (!words.lots.empty()) text += care_line("Lots", fmt::format("{}", fmt::join(words.lots, ", ")));
    if (!pieces.empty()) text += care_line("Changed", pieces);
    for (const std::string& note : notes) text += care_line("Note", note);
    return CareAnswer{text + care_line("Head hash", head),
                      JsonObject{{"format", 1},
                                 {"bench_step", step.name},
                                 {"version", 1},
                                 {"work", words.work},
                                 {"pieces", list_of(words.pieces)},
                                 {"lots", list_of(words.lots)},
                                 {"at", step.at},
                                 {"person", step.person},
                                 {"changed", std::move(changed)},
                                 {"notes", list_of(notes)},
                                 {"head", head}},
                      false};
  });
}

}  // namespace heatwork::desk
