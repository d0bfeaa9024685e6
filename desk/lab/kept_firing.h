// A firing as the store keeps it, and the next version of it.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/lab/rehearsal_document.h"
#include "desk/lab/store_place.h"
#include "trade/firing.h"

namespace heatwork::desk {

struct KeptFiring {
  records::Document document;
  trade::Firing firing;
};

/// The newest version. Errors: Failure unknown_name, with the nearest name where there is one.
KeptFiring kept_firing(records::Store& store, const std::string& name);

/// As files spell it; a firing that was kept without a record is planned.
trade::FiringState state_of(const trade::Firing& firing);
std::string_view word(trade::FiringState state);

/// The version after `stands`. Errors: trade::Mistake where it cannot be read back.
records::NewVersion next_version(const KeptFiring& stands, const trade::Firing& changed, std::string_view action,
                                 const std::string& reason = "");

/// When something happened, in UTC to the second: as typed, else now. Errors: Failure bad_value where it lies in the future, or before
/// `not_before` (empty: any time).
std::string moment_of(const StorePlace& place, const std::string& typed, const std::string& not_before = "");

/// "2026-11-25 18:11 (Europe/Berlin)"
std::string shown_moment(const StorePlace& place, const std::string& utc);

/// The limits of the lab that a rehearsal was judged by; absent where it was judged by those that ship.
std::shared_ptr<const trade::Source> limits_of(records::Store& store, const std::vector<TextStoodFor>& used);

/// Those of the newest kept rehearsal of a firing; absent where there is none, too.
std::shared_ptr<const trade::Source> limits_kept_with(records::Store& store, const std::string& firing);

/// The firing that is started and not yet over in which a piece, or a furnace, is. Nothing: it is free.
std::optional<trade::Firing> firing_with_piece(records::Store& store, const std::string& piece);
std::optional<trade::Firing> firing_in_furnace(records::Store& store, const std::string& furnace);
/// Errors: Failure conflict, where the piece is in one.
void piece_must_be_free(records::Store& store, const StorePlace& place, const std::string& piece);

}  // namespace heatwork::desk
