// Which pieces met something, answered from the store in one go: a lot, a furnace, a program's version.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

// Pieces come in order of first meeting, 1000 a page, with the exact count of all. Errors of all: Failure, records::StoreError; a name that
// is neither kept nor met by any piece is unknown_name.

CareAnswer pieces_of_lot(const AskedLab& asked, const std::string& lot, int page);

struct FurnaceWords {
  std::string furnace;
  std::string from, to;  ///< days in the zone of the lab, both counted in; empty: from the first, to the last
  int page = 1;
};
CareAnswer pieces_of_furnace(const AskedLab& asked, const FurnaceWords& words);

/// Fired since the last good check `of` that furnace, as files spell it: "temperature".
CareAnswer pieces_since_good_check(const AskedLab& asked, const std::string& furnace, const std::string& of, int page);

/// NAME@VERSION, or NAME for every version.
CareAnswer pieces_of_program(const AskedLab& asked, const std::string& program, int page);

}  // namespace heatwork::desk
