// Everything a piece went through, in order: firings, bench steps, deviations, and what the material was after each firing.
#pragma once

#include <optional>
#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/rehearsal_document.h"
#include "desk/lab/store_care.h"
#include "records/store.h"
#include "trade/firing.h"

namespace heatwork::desk {

/// A piece under its names: one that was fired under another name before (`was` of the firing) brings that name's history with it.
/// Errors: Failure unknown_name where nothing is kept of it.
CareAnswer history_of_piece(const AskedLab& asked, const std::string& piece);

/// What a piece was after a firing, and how that is known.
struct StateAfter {
  std::optional<PieceReading> reading;
  int rehearsal = 0;  ///< version of the kept rehearsal it was read from; 0: computed again
  std::string how;    ///< in words; where there is no reading, why
};

/// From the rehearsal that was kept when this very firing was started; where there is none, or it was of another model, computed again
/// from what the firing was fired with.
StateAfter state_after(records::Store& store, const trade::Firing& firing, const std::string& piece);

}  // namespace heatwork::desk
