#include "desk/lab/kept_conflict.h"

#include <fmt/format.h>

#include "desk/lab/kept_difference.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/store_shelf.h"
#include "trade/noun.h"

namespace heatwork::desk {

void refuse_conflict(records::Store& store, const ChangedMeanwhile& conflict, const std::string& yours) {
  const auto& [kind, name, from, newest] = conflict.versions();
  const auto noun = trade::noun_of(kind);
  if (!noun || from == 0) throw ChangedMeanwhile(conflict);
  const auto base = kept_source(kept_document(store, *noun, {name, from}));
  const auto theirs = difference_of(*noun, base, kept_source(kept_document(store, *noun, {name, newest})));
  const auto mine = difference_of(*noun, base, trade::source_of("yours", yours));
  throw ChangedMeanwhile(conflict.versions(), fmt::format("{}\nVersion {} changed:\n{}Yours would have changed:\n{}Look at both, then "
                                                          "change version {}.",
                                                          conflict.what(), newest, as_lines(theirs, 2), as_lines(mine, 2), newest));
}

}  // namespace heatwork::desk
