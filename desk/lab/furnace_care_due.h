// What is due for the furnaces of a lab: each work with its day, its reason and who says how often; and as rows of all that falls due.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/store_care.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {

struct FurnaceDueWords {
  std::string furnace;  ///< empty: every furnace that is kept
};

/// What is due of each furnace, and of the references furnaces are checked with. Errors: Failure unknown_name; trade::Mistake;
/// records::StoreError.
CareAnswer due_of_furnaces(const AskedLab& asked, const FurnaceDueWords& words, const Clock& clock = clock_of_machine());

/// Something that falls due in a lab, whatever it is of.
struct FallsDue {
  std::string on;  ///< day
  std::string kind, name, label, what;
};

/// All that falls due up to and including a day, in order of day, kind and name: what documents state, and what works of furnaces follow
/// from checks, firings and repairs. A day an older check states is passed over where a newer one of its kind stands.
std::vector<FallsDue> all_that_falls_due(records::Store& store, const StorePlace& place, const std::string& today,
                                         const std::string& until);

}  // namespace heatwork::desk
