// "Rehearse this firing": one of a file, or one that the lab's store keeps; names are sought beside the file, then in the store where one
// stands, then among what ships.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_place.h"
#include "desk/rehearse_files.h"

namespace heatwork::desk {

/// The store of a lab, where one stands. One that was named and is not there is an error, as is one that stands and cannot be read.
std::optional<records::Store> store_that_stands(const StorePlace& place);

/// Finds a firing: a word without a dot and without a slash is NAME or NAME@VERSION in the store, anything else a file. One of the store
/// that was started is found with the very texts it was started with. A furnace of the store is as its checks know it; `starts_ms`: when
/// the firing is being started. Errors: Failure unknown_name, file_not_found; trade::Mistake.
trade::ResolvedFiring found_in_lab(const std::string& firing, const StorePlace& place, records::Store* store,
                                   std::optional<std::int64_t> starts_ms = std::nullopt);

/// The file beside which the lab's limits may stand; empty: the word names a firing of the store.
std::string file_of_firing(const std::string& firing);

/// Errors: Failure, trade::Mistake, std::domain_error.
Rehearsed rehearse_in_lab(const std::string& firing, const AskedLab& asked, const Manner& manner = {});

}  // namespace heatwork::desk
