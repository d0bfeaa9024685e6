// What a lab keeps, added, changed, locked and written out.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"
#include "trade/noun.h"

namespace heatwork::desk {

// Errors of all: Failure, trade::Mistake, records::StoreError; then nothing was kept.

struct AddWords {
  std::vector<std::string> what;  ///< files that end in .toml; or one new name, whose values `set` gives
  std::vector<std::string> set;   ///< "KEY=VALUE"
  std::string reason;
  std::string text = {};  ///< instead of both: the text of a file
};
/// Keeps new ones as their first version, all or none.
CareAnswer add_kept(const AskedLab& asked, trade::Noun noun, const AddWords& words);

struct ChangeWords {
  std::string name;
  std::string file;  ///< its new text; empty: `set` and `unset` say what changes
  std::vector<std::string> set, unset;
  int from = 0;  ///< version the change was made from; 0: the newest as it stands
  std::string reason;
  std::string text = {};  ///< instead of a file: its new text
};
/// Keeps the next version. Where another was kept meanwhile the refusal tells what that one changed.
CareAnswer change_kept(const AskedLab& asked, trade::Noun noun, const ChangeWords& words);

/// Locks the newest version, or unlocks it again.
CareAnswer set_lock(const AskedLab& asked, trade::Noun noun, const std::string& name, bool locked, const std::string& reason);

/// Writes NAME or NAME@VERSION as a file; one that stands there is never replaced. `file` empty: KIND-NAME.toml here.
CareAnswer write_out_kept(const AskedLab& asked, trade::Noun noun, const std::string& name, const std::string& file);

}  // namespace heatwork::desk
