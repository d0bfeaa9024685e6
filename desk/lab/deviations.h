// Deviations: that something left what was laid down, what is done about it, and who releases it.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

struct DeviationFound {
  std::string name;
  std::string from;    ///< what was left: "instruction, hold at most 1 min"
  std::string found;   ///< what was found
  std::string firing;  ///< name; may be empty
  std::vector<std::string> pieces;
  std::string at;  ///< when it was found, as typed; empty: now
  std::string reason;
};

struct DeviationDecided {
  std::string name;
  std::string decision;  ///< "use as it is", "fire again", "make again", "reject", or "open" again
  std::string reason;
  std::string trial;  ///< trial firing on a tab, in words; empty: as it stands
};

// Errors of all: Failure, records::Conflict, trade::Mistake; then nothing was kept.

/// Found by the one who asks.
CareAnswer open_deviation(const AskedLab& asked, const DeviationFound& found);
/// Of one that is not released. Needs the role release.
CareAnswer decide_deviation(const AskedLab& asked, const DeviationDecided& decided);
/// Signed by the one who asks, now. Needs the role release, and a decision.
CareAnswer release_deviation(const AskedLab& asked, const std::string& name, const std::string& reason);

}  // namespace heatwork::desk
