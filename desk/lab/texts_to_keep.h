// Which texts a firing's names stood for, and what of them must be kept so that it can be found again.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/furnace_in_lab.h"
#include "desk/lab/rehearsal_document.h"
#include "records/store.h"
#include "trade/firing.h"

namespace heatwork::desk {

struct TextsToKeep {
  std::vector<TextStoodFor> used;              ///< in order of first naming
  std::vector<trade::TextUsed> texts;          ///< the same as they are kept, or stand
  std::vector<records::NewVersion> documents;  ///< to be kept with the firing
  std::vector<std::string> added;              ///< "tray light": stood beside the file alone, and is now the store's first version
  std::vector<std::string> differ;             ///< a sentence each: beside the file stands another than in the store
};

/// A text of the store is told by its version. One beside the file that the store has not is added to it; one that says the same as the
/// store's newest is that version; one that differs, and what ships, is kept as a snapshot. Errors: trade::Mistake.
void take_text(records::Store& store, const trade::TextUsed& text, TextsToKeep& into);

/// A text that was typed over version `from` of what the store has under its name becomes the version after it; 0: after the newest. One
/// it has not is added.
void take_typed(records::Store& store, const trade::TextUsed& text, int from, const std::string& reason, TextsToKeep& into);

/// The firing with all it names read from the texts as they are kept: only then can the same be computed again to the last bit, as what
/// was typed is kept in canonical values. `found`: what it was found with, for the places told and what is told of checks.
trade::ResolvedFiring with_kept_texts(records::Store& store, const RehearsedAt& at, const trade::Firing& firing, const TextsToKeep& texts,
                                      const trade::ResolvedFiring& found);

}  // namespace heatwork::desk
