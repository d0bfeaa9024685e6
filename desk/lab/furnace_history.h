// What the store tells of a furnace for what is due and for its qualification: checks, firings, repairs, changes of the furnace itself.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/store_place.h"
#include "furnace_care/due.h"
#include "furnace_care/qualification.h"
#include "records/store.h"
#include "trade/furnace.h"
#include "trade/records.h"

namespace heatwork::desk {

/// One furnace with all that decides what is due.
struct FurnaceKept {
  trade::Furnace furnace;
  int version = 0;
  std::vector<trade::Check> checks;  ///< finished, oldest first
  furnace_care::FurnaceHistory history;
  furnace_care::UpkeepSet set;                      ///< by the furnace's file and the lab
  std::vector<furnace_care::Reopening> reopenings;  ///< oldest first, at least one
  std::vector<furnace_care::SpecimenFiring> specimens;
};

/// Days are those of the zone of the lab. Errors: Failure unknown_name where the store keeps no such furnace; trade::Mistake.
FurnaceKept furnace_kept(records::Store& store, const StorePlace& place, const std::string& furnace, const std::string& today);

/// How often works are due at every furnace, as the lab's document says.
std::vector<trade::LabDue> dues_of_lab(records::Store& store);

furnace_care::UpkeepInterval interval_of_lab(const trade::LabDue& due);

/// The names of the kept furnaces, in order.
std::vector<std::string> furnaces_kept(records::Store& store);

/// Which work a check of a kind does; nothing for one that does none.
std::vector<furnace_care::Upkeep> works_of(trade::CheckOf of);

}  // namespace heatwork::desk
