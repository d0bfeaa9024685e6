// "What is there to do today?": firings that are planned, run or were interrupted, open cases with the next step of each piece, what is
// due.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

struct TodayWords {
  std::string within = "30 days";  ///< how far ahead what is due is shown; what is overdue always is
};

/// Started firings first, the longest running before; then interrupted, then planned ones by when they are planned for. Cases by the day
/// they must leave the lab. Of each at most `rows_of_today`, with the exact count of all. Nothing is walked but these: as quick in a store
/// of a million firings. Errors: Failure, records::StoreError.
CareAnswer today_in_lab(const AskedLab& asked, const TodayWords& words = {}, const Clock& clock = clock_of_machine());

inline constexpr std::size_t rows_of_today = 200;

}  // namespace heatwork::desk
