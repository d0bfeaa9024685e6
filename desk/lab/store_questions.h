// What a store tells as a whole: what falls due, and its trail.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

struct DueWords {
  std::string until;   ///< day, counted in; empty: see within
  std::string within;  ///< "30 days"; empty: everything
  int page = 1;
};
/// What is due, sorted by day, what is overdue said. Errors: Failure, records::StoreError.
CareAnswer due_in_store(const AskedLab& asked, const DueWords& words, const Clock& clock = clock_of_machine());

struct TrailWords {
  std::string kind, name;  ///< empty: of everything
  int from = 1;            ///< first entry shown
  bool newest_first = false;
  int page = 1;
};
CareAnswer trail_of_store(const AskedLab& asked, const TrailWords& words);

}  // namespace heatwork::desk
