// A guided check that will not be gone on with: it stays on record, and says nothing of its furnace.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

struct GiveUpWords {
  std::string check;
  int from = 0;  ///< version of it that this was decided over; 0: whichever is the newest
  std::string reason;
};

/// Errors: Failure unknown_name, bad_value without a reason, conflict where the check is finished; ChangedMeanwhile; records::StoreError.
CareAnswer give_up_check(const AskedLab& asked, const GiveUpWords& words);

}  // namespace heatwork::desk
