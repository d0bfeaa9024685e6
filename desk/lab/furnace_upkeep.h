// How often works are due at the furnaces of a lab, set; and works done by hand, marked.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

/// Whole numbers as typed; what is empty is not said. A new interval takes the place of the whole one before it.
struct UpkeepIntervalWords {
  std::string furnace;  ///< empty: every furnace of the lab whose own file says nothing of the work
  std::string work;     ///< "vacuum test", or a work of the lab's own
  std::string every_days, after_firings, after_hours;
  std::string by;          ///< "furnace maker" or "lab"; empty: the lab
  std::string stated_in;   ///< where the furnace maker says so
  bool as_before = false;  ///< takes the interval out again
  int from = 0;            ///< version of furnace or lab the change was made from; 0: the newest
  std::string reason;
};

/// Keeps the next version of the furnace, or of the lab, and answers with what is due now. Errors: Failure, ChangedMeanwhile,
/// trade::Mistake, records::StoreError; then nothing was kept.
CareAnswer set_upkeep_interval(const AskedLab& asked, const UpkeepIntervalWords& words, const Clock& clock = clock_of_machine());

struct UpkeepDoneWords {
  std::string furnace, work;
  std::string on;  ///< day; empty: today
  int from = 0;    ///< version of the furnace the change was made from; 0: the newest
  std::string reason;
};

/// Marks a work as done by the one who asks. A work that a check does is refused. Answer and errors as above.
CareAnswer mark_upkeep_done(const AskedLab& asked, const UpkeepDoneWords& words, const Clock& clock = clock_of_machine());

}  // namespace heatwork::desk
