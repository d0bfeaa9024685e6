// A furnace as its kept checks know it on the day of a firing: what a rehearsal takes in place of what the furnace's file says.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "trade/furnace.h"
#include "trade/furnace_known.h"
#include "trade/records.h"

namespace heatwork::furnace_care {

/// A moment as days since 1970-01-01 UTC, and its day as people read it.
struct OnDay {
  double days = 0;
  std::string day;
};

struct CheckOnDay {
  trade::Check check;
  OnDay at;
};

/// The furnace's file as it was kept then.
struct FileOnDay {
  trade::Furnace furnace;
  OnDay at;
};

struct AsChecked {
  trade::Furnace furnace;
  trade::FurnaceKnown known;
  std::vector<std::size_t> used;  ///< checks whose values were taken, as given
};

/// The newest file with what the newest check that counts says of each value. `file`: oldest first, the last is in use, one at least;
/// `checks`: in any order, those after `fired` are left out. `top_C`: highest temperature of the program, to which an error found elsewhere
/// is carried; nothing: it is taken as it was found.
/// A check counts that is finished, could tell, and was not followed by a repair; for the display it must give its uncertainty, which grows
/// with the days since. What was typed in the file after the check stands. source: chosen-here theory: (display-offset.11)
AsChecked as_checked(std::span<const FileOnDay> file, std::span<const CheckOnDay> checks, const OnDay& fired, std::optional<double> top_C);

}  // namespace heatwork::furnace_care
