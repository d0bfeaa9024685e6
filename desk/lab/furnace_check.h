// "Is this furnace still true?": the guided checks of its temperature, worked out whole from answers and readings, and kept as they go on.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"
#include "trade/edit.h"

namespace heatwork::desk {

/// One wire that was fired.
struct WireFired {
  std::string display;  ///< "960 °C"
  std::string melted;   ///< "melted" or "whole"
  std::string at;       ///< as typed; empty: not said
};

/// Display and thermocouple read together: a temperature, or a voltage with its cold junction.
struct ProbeRead {
  std::string display, probe, emf, cold_junction;
  std::string at;
};

/// A tab that was looked at: in K against the reference tab, or its colour.
struct TabSeen {
  std::string where, looked_like;
  std::string lightness, redness, yellowness;
};

struct FurnaceCheckWords {
  std::string furnace;
  std::string go_on;                 ///< a kept check; only one that still goes on takes more; empty: a new one
  int from = 0;                      ///< version of it that this was made from; 0: whichever is the newest
  std::string name;                  ///< of a new one; empty: after furnace, kind and day
  std::vector<trade::Edit> answers;  ///< by the keys of a check's file: {"wire.gas", "vacuum"}
  std::vector<WireFired> trials;     ///< those that are new
  std::vector<ProbeRead> compared;
  std::vector<TabSeen> tabs;
  bool keep = false;
  bool more_follows = false;  ///< of a comparison or a map that may end with what there is: it goes on
  std::string decision;       ///< of a finished one: "corrected", "allowed for", "left", "out of use"; empty: none yet
  std::string reason;
};

// Each call works out the whole check: what to ask next with its choices, the next display value, at the end the error with its budget,
// which way to key, the two ways on, and what was fired since the last good check. Nothing is kept but where `keep` says so; a check that
// was decided to be "corrected" also keeps the furnace with its new correction. Wrong where the furnace is not good.
// As JSON, of all: furnace, check (its name), of, going_on (others begun), level ("going on", "good", "not good", "cannot tell"), sentence,
// found, budget [{sentence, standard_uncertainty_K, standing, source}], limit_K and limit_from, question (null, or key, sentence, why,
// choices, example), remarks, line (the error at temperatures), keying, ways [{word, decision, sentences}], then, fired_since_good (as
// pieces_since_good_check), kept, version, finished, documents. Of a wire also before, melting, trials, next {display_C, sentence}. Of a
// map spread_K, colour_difference, limit. What people read stands under "sentence", so that told_in says it in their language; an answer's
// key and choices are those of the form of a check. Errors: Failure, std::domain_error, trade::Mistake, records::StoreError; then nothing
// was kept.

CareAnswer check_temperature(const AskedLab& asked, const FurnaceCheckWords& words);
CareAnswer check_thermocouple(const AskedLab& asked, const FurnaceCheckWords& words);
CareAnswer check_chamber_map(const AskedLab& asked, const FurnaceCheckWords& words);

}  // namespace heatwork::desk
