// A guided check while it goes on: the furnace, what is kept of it, and the answers and readings that are new.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_checks_kept.h"
#include "desk/lab/store_place.h"
#include "records/store.h"
#include "report/number.h"
#include "trade/check.h"
#include "trade/furnace.h"
#include "trade/records.h"

namespace heatwork::desk {

struct FurnaceCheckDraft {
  trade::Furnace furnace;
  int furnace_version = 0;
  trade::Check check;
  int version = 0;  ///< of the kept check it goes on from; 0: a new one
  std::vector<KeptCheck> earlier;
  std::optional<trade::Reference> reference;  ///< what it is checked with, where it is kept
  std::vector<std::string> going_on;          ///< others of its kind that were begun and not finished
  std::vector<std::string> taken_out;         ///< what was answered before and no longer fits, a sentence each
  std::int64_t now_ms = 0;
  std::string zone;
};

/// Errors: Failure unknown_name, conflict where the check is finished or another's, bad_value for a key that is not answered;
/// trade::Mistake.
FurnaceCheckDraft draft_of(const StorePlace& place, records::Store& store, const FurnaceCheckWords& words, trade::CheckOf of);

/// In which scale a person told the temperatures of this call: degrees Fahrenheit where all of them are.
report::TemperatureScale scale_typed_in(const FurnaceCheckWords& words);

/// What is to be minded, with what was taken out before it.
std::vector<std::string> with_taken_out(const FurnaceCheckDraft& draft, const std::vector<std::string>& remarks);

/// The correction that stood on the panel while the check was done [K].
double keyed_K(const FurnaceCheckDraft& draft);

/// Keeps the check, and the furnace where its correction was changed. Fills the version in.
records::Kept keep_draft(const StorePlace& place, records::Store& store, FurnaceCheckDraft& draft, const std::string& reason);

}  // namespace heatwork::desk
