#include "desk/lab/kept_firing.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "desk/errors.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "trade/choice_words.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

constexpr std::string_view firing_kind = trade::word(trade::Noun::firing);

std::optional<trade::Firing> started_firing(records::Store& store, const std::function<bool(const trade::Firing&)>& is_it) {
  records::HeadQuery query;
  query.kind = firing_kind;
  query.state = word(trade::FiringState::started);
  for (bool more = true; more; ++query.page) {
    const auto page = store.heads(query);
    for (const auto& head : page.rows) {
      trade::Firing firing = firing_of(*store.find(firing_kind, head.id));
      if (is_it(firing)) return firing;
    }
    more = static_cast<std::int64_t>(query.page) * records::rows_a_page < page.count;
  }
  return std::nullopt;
}

}  // namespace

KeptFiring kept_firing(records::Store& store, const std::string& name) {
  if (auto document = store.find(firing_kind, name)) {
    trade::Firing firing = firing_of(*document);
    return {std::move(*document), std::move(firing)};
  }
  throw Failure(ErrorWord::unknown_name, not_kept(store, firing_kind, name, "rehearse it and keep it first."));
}

trade::FiringState state_of(const trade::Firing& firing) {
  return firing.record ? firing.record->state.value : trade::FiringState::planned;
}

std::string_view word(trade::FiringState state) {
  return trade::choice_word(state);
}

records::NewVersion next_version(const KeptFiring& stands, const trade::Firing& changed, std::string_view action,
                                 const std::string& reason) {
  records::NewVersion next;
  next.kind = firing_kind;
  next.id = changed.name;
  next.after = stands.document.version;
  next.body = trade::write_noun(changed);
  next.action = action;
  next.reason = reason;
  (void)read_kept<trade::Firing>(trade::source_of(fmt::format("{} {}", next.kind, next.id), next.body));
  return next;
}

std::string moment_of(const StorePlace& place, const std::string& typed, const std::string& not_before) {
  const std::int64_t now = utc_ms(place.opening.who.at_utc);
  const std::int64_t at = typed.empty() ? now : typed_ms(typed, place.zone);
  const std::string utc = utc_text(at);
  if (at > now)
    throw Failure(ErrorWord::bad_value, fmt::format("{} lies in the future; now it is {}.", shown_moment(place, utc),
                                                    shown_moment(place, place.opening.who.at_utc)));
  if (!not_before.empty() && at / 1000 < utc_ms(not_before) / 1000)
    throw Failure(ErrorWord::bad_value, fmt::format("{} lies before the start, {}; allowed is from there on.", shown_moment(place, utc),
                                                    shown_moment(place, not_before)));
  return utc;
}

std::string shown_moment(const StorePlace& place, const std::string& utc) {
  return fmt::format("{} ({})", local_text(utc_ms(utc), place.zone), place.zone);
}

std::shared_ptr<const trade::Source> limits_of(records::Store& store, const std::vector<TextStoodFor>& used) {
  for (const TextStoodFor& text : used) {
    if (text.name.kind != "limits") continue;
    constexpr std::string_view beside = "beside: ";
    const std::string file = text.from.starts_with(beside) ? text.from.substr(beside.size()) : text.from;
    if (const auto snapshot = store.find(snapshot_kind, text.name.snapshot)) return trade::source_of(file, snapshot->body);
    throw Failure(ErrorWord::store_damaged, fmt::format("The limits of the lab that a rehearsal was judged by, snapshot {}, are not in the "
                                                        "store; \"store verify\" tells more, restore a backup.",
                                                        text.name.snapshot));
  }
  return nullptr;
}

std::shared_ptr<const trade::Source> limits_kept_with(records::Store& store, const std::string& firing) {
  const auto kept = store.find(rehearsal_kind, firing);
  return kept ? limits_of(store, read_rehearsal_document(kept->body).used) : nullptr;
}

std::optional<trade::Firing> firing_with_piece(records::Store& store, const std::string& piece) {
  return started_firing(store, [&](const trade::Firing& firing) {
    return std::any_of(firing.pieces.begin(), firing.pieces.end(), [&](const auto& on) { return on.piece.value == piece; });
  });
}

void piece_must_be_free(records::Store& store, const StorePlace& place, const std::string& piece) {
  const auto firing = firing_with_piece(store, piece);
  if (!firing) return;
  throw Failure(ErrorWord::conflict, fmt::format("Piece {} is in the furnace {}: firing {} was started {} and is not ended.", piece,
                                                 firing->furnace.value, firing->name, shown_moment(place, firing->record->started)));
}

std::optional<trade::Firing> firing_in_furnace(records::Store& store, const std::string& furnace) {
  return started_firing(store, [&](const trade::Firing& firing) { return firing.furnace.value == furnace; });
}

}  // namespace heatwork::desk
