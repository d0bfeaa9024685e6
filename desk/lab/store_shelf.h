// Names found in a lab's store: the newest version of each, or, of a firing that was started, the very texts it was started with.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "records/store.h"
#include "trade/library.h"

namespace heatwork::desk {

/// The kind of document a text from elsewhere is kept as; its name is its own hash. docs/formats/snapshot.md
inline constexpr std::string_view snapshot_kind = "snapshot";
/// The kind of a kept rehearsal; its name is that of its firing.
inline constexpr std::string_view rehearsal_kind = "rehearsal";

/// The newest versions. The store must live as long.
std::unique_ptr<trade::Shelf> store_shelf(records::Store& store);

/// Only these.
std::unique_ptr<trade::Shelf> shelf_of_texts(std::vector<trade::TextUsed> texts);

/// A document's text under the name that messages print, "tray light@3".
std::shared_ptr<const trade::Source> kept_source(const records::Document& document);

/// A firing of the store. Errors: trade::Mistake where its text cannot be read.
trade::Firing firing_of(const records::Document& document);

/// The firing as a text that tells nothing of what became of it.
std::string text_without_record(const trade::Firing& firing);

/// It was started, so that the texts it was started with are known.
bool was_started(const trade::Firing& firing);

bool same_texts_used(const trade::FiringRecord& one, const trade::FiringRecord& other);

/// A firing that was started, with the very texts it was started with, its furnace as the checks among them know it; days as in `zone`.
/// Errors: Failure store_damaged where one of them is not there.
trade::ResolvedFiring as_started(records::Store& store, const trade::Firing& firing, const std::string& zone = "UTC");

/// Firings of the past that the store knows: found as above. One whose text beside the file says another than the store's is not known.
/// The store must live as long.
trade::FiringOfThePast fired_before(records::Store& store);

}  // namespace heatwork::desk
