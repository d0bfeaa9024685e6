// "What if?": a firing that the store keeps, or a new one of kept names, with values typed over it, rehearsed; nothing is kept.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/json_value.h"
#include "desk/lab/asked.h"
#include "desk/lab/store_place.h"
#include "desk/rehearse_files.h"
#include "trade/edit.h"

namespace heatwork::desk {

/// What was typed over one document: over "program", "furnace" or "tray" of the firing, over "firing" itself, or by kind and name over
/// any that it takes: "piece crown-16".
struct TypedOver {
  std::string of;
  std::vector<trade::Edit> edits;
  int from = 0;  ///< version it was typed over; 0: the one that stands, or that a started firing was started with
};

struct EditedFiring {
  std::string firing;              ///< NAME or NAME@VERSION of the store; empty: a new one
  std::vector<trade::Edit> fresh;  ///< values of the new one's file
  std::vector<TypedOver> typed;
  std::string program_name;  ///< name the changed program goes by; empty: its own, or, where the maker's sheet names it, NAME-changed
};

struct EditMistake {
  std::string of, key, sentence;  ///< key empty: of the document as a whole
};

/// The firing with all it names and what was typed; or why not. What was typed stands in `used` with version 0.
struct ResolvedEdit {
  std::optional<trade::ResolvedFiring> request;
  std::vector<EditMistake> mistakes;
  /// Kind and name of each document that was typed over, as "program dentine"; its edits; the version they lie over, 0 where it is none
  /// of the store.
  std::vector<TypedOver> changed;
  int firing_from = 0;  ///< the version of the firing itself; 0: it is new
};
/// Errors: Failure unknown_name, bad_value; StoreError.
ResolvedEdit resolve_edited(const EditedFiring& asked, const StorePlace& place, records::Store& store);

struct EditedRehearsal {
  std::optional<Rehearsed> rehearsed;  ///< absent where there are mistakes
  std::vector<EditMistake> mistakes;
};
/// Errors: as above; firing::Stopped.
EditedRehearsal rehearse_edited(const EditedFiring& asked, const StorePlace& place, records::Store& store, const HowRehearsed& how);

/// [{"of", "key", "sentence"}]
JsonList as_json(const std::vector<EditMistake>& mistakes);

}  // namespace heatwork::desk
