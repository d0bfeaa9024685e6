// "Start a firing", "end it with its result", "it was interrupted", "it is called off": what becomes of a firing that the store keeps.
//
//   planned -> started -> ended
//      |          +-> interrupted -> ended
//      +-> called off
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

// Errors of all: Failure, trade::Mistake, records::StoreError with one sentence; then nothing was kept. `at`: as typed; empty: now.

struct StartWords {
  std::string firing;
  std::string read_back;  ///< what was read off the panel; may be empty
  std::string at;
};
/// Pins the version of everything the firing names, rehearses it so, and keeps both. Refused where it is not planned, where a firing it
/// comes after was not fired, and where a piece or the furnace is in another firing that is started.
CareAnswer start_firing(const AskedLab& asked, const StartWords& words);

struct EndWords {
  std::string firing;
  std::vector<std::string> outcomes;                             ///< "crown-16=as wanted", one a piece on the tray
  std::vector<std::string> looked_like;                          ///< "crown-16=-10 K"
  std::vector<std::string> seen;                                 ///< "crown-16=edges still sharp"
  std::string highest_display, hold, lowest_pressure, duration;  ///< as read off the furnace; may be empty
  std::string at;
};
CareAnswer end_firing(const AskedLab& asked, const EndWords& words);

CareAnswer interrupt_firing(const AskedLab& asked, const std::string& firing, const std::string& what, const std::string& at);

CareAnswer call_off_firing(const AskedLab& asked, const std::string& firing, const std::string& reason);

}  // namespace heatwork::desk
