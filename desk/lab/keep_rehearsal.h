// "Rehearse this firing and keep it": the firing as planned, its rehearsal, and every text it hangs on, at one stroke.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_place.h"
#include "desk/lab/texts_to_keep.h"
#include "desk/rehearse_files.h"
#include "report/rehearsal_json.h"

namespace heatwork::desk {

struct KeptRehearsal {
  Rehearsed rehearsed;
  report::KeptAs kept;
  std::string text;  ///< what was kept, for people
};

/// The same again keeps nothing. A firing that was started, or called off, is refused; a planned one that says something else now needs
/// `reason`. Errors: Failure, trade::Mistake, records::StoreError; then nothing was kept.
KeptRehearsal rehearse_and_keep(const std::string& firing, const AskedLab& asked, const std::string& reason);

/// How a text that the firing was found with is taken along.
using TakeText = std::function<void(records::Store& store, const trade::TextUsed& text, TextsToKeep& into)>;

/// A firing that was found, on its way into the store.
struct FoundToKeep {
  const trade::ResolvedFiring& found;
  std::string file;  ///< beside which it stands; empty: none
  std::string reason;
  int from = 0;  ///< the version it was made from; 0: the one that stands
};
/// The same of a firing that was found. Errors: as above; ChangedMeanwhile.
KeptRehearsal keep_found(const StorePlace& place, records::Store& store, const FoundToKeep& firing, const TakeText& take);

/// The next version of a firing's rehearsal; absent where the newest says the very same. `version`: the one it then has.
std::optional<records::NewVersion> next_rehearsal(records::Store& store, const RehearsalDocument& rehearsal, int& version);

}  // namespace heatwork::desk
