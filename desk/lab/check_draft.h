// "Would this be kept?": a draft read for all its mistakes, by key; nothing is kept.
#pragma once

#include "desk/lab/asked.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/store_care.h"
#include "trade/edit.h"
#include "trade/noun.h"

namespace heatwork::desk {

struct DraftMistake {
  std::string key;  ///< as an edit takes it; of one of a list by its place: "piece[1].place"; empty: of the draft as a whole
  std::string sentence;
};

/// Of the text that the edits make of what stands; `base` empty: of a new noun of that name.
std::vector<DraftMistake> mistakes_of_edits(trade::Noun noun, const std::string& base, const std::string& name,
                                            const std::vector<trade::Edit>& edits);

// As JSON: format, kind, name, newest (version that stands, null where none does), mistakes [{"of", "key", "sentence"}]. The answer is
// wrong where there are any. Errors: Failure where a request cannot be understood; StoreError.

CareAnswer check_new(const AskedLab& asked, trade::Noun noun, const AddWords& words);
/// Errors: as above; Failure unknown_name.
CareAnswer check_change(const AskedLab& asked, trade::Noun noun, const ChangeWords& words);

}  // namespace heatwork::desk
