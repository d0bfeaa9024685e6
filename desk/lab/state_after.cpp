#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/clock.h"
#include "desk/lab/furnace_in_lab.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/piece_history.h"
#include "desk/lab/store_shelf.h"
#include "firing/rehearsal.h"
#include "trade/library.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

/// A kept rehearsal is of this firing where the version it names was started with the same texts and says the same.
bool is_of(records::Store& store, const RehearsalDocument& rehearsal, const trade::Firing& firing) {
  const auto document = store.find(trade::word(trade::Noun::firing), firing.name, rehearsal.firing_version);
  if (!document) return false;
  const trade::Firing then = firing_of(*document);
  return was_started(then) && same_texts_used(*then.record, *firing.record) && text_without_record(then) == text_without_record(firing);
}

std::optional<PieceReading> reading_in(const std::vector<PieceReading>& pieces, const std::string& piece) {
  for (const PieceReading& each : pieces)
    if (each.piece == piece) return each;
  return std::nullopt;
}

struct KeptState {
  RehearsalDocument document;
  int version = 0;
};

/// The newest first: it is nearly always the one.
std::optional<KeptState> kept_state(records::Store& store, const trade::Firing& firing) {
  const auto newest = store.find(rehearsal_kind, firing.name);
  for (int version = newest ? newest->version : 0; version > 0; --version) {
    const auto document = store.find(rehearsal_kind, firing.name, version);
    KeptState state{read_rehearsal_document(document->body), version};
    if (is_of(store, state.document, firing)) return state;
  }
  return std::nullopt;
}

trade::ResolvedFiring found_now(records::Store& store, const trade::Firing& firing) {
  trade::Library library(ambient_of_altitude);
  library.add(store_shelf(store));
  library.add(trade::shipped_shelf());
  trade::ResolvedFiring found = library.resolve(firing, fired_before(store));
  know_furnaces(store, {clock_of_machine().now_ms()}, found);
  return found;
}

StateAfter computed_again(records::Store& store, const trade::Firing& firing, const std::string& piece, const std::string& why) {
  StateAfter out;
  const bool pinned = was_started(firing);
  out.how = fmt::format("computed again, {}, {}", why,
                        pinned ? "from the texts it was fired with" : "from what stands now, as the texts it was fired with are not kept");
  const auto no_reading = [&](const std::string& sentence) { out.how = fmt::format("not known: {}", sentence); };
  try {
    const Rehearsed rehearsed = rehearse_by_limits(pinned ? as_started(store, firing) : found_now(store, firing), nullptr);
    out.reading = reading_in(piece_readings(rehearsed.rehearsal), piece);
    if (!out.reading) no_reading(rehearsed.rehearsal.impossible.value_or("the piece was not on the tray."));
  } catch (const trade::Mistake& mistake) {
    no_reading(mistake.sentence());
  } catch (const std::domain_error& error) {
    no_reading(error.what());
  }
  return out;
}

}  // namespace

StateAfter state_after(records::Store& store, const trade::Firing& firing, const std::string& piece) {
  if (!was_started(firing)) return computed_again(store, firing, piece, "as no rehearsal of it is kept");
  const auto kept = kept_state(store, firing);
  if (!kept) return computed_again(store, firing, piece, "as no rehearsal of it is kept");
  if (kept->document.model_version != firing::model_version)
    return computed_again(store, firing, piece,
                          fmt::format("as rehearsal {} is of model version {}", kept->version, kept->document.model_version));
  StateAfter out;
  out.reading = reading_in(kept->document.pieces, piece);
  out.rehearsal = kept->version;
  out.how = out.reading
                ? fmt::format("kept rehearsal {}", kept->version)
                : fmt::format("not known: {}", kept->document.impossible.value_or("the kept rehearsal does not tell of the piece."));
  return out;
}

}  // namespace heatwork::desk
