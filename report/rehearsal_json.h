// A rehearsal with its findings as JSON, for other programs. The form is written down in docs/formats/rehearsal-json.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "trade/words.h"
#include "verdict/finding.h"

namespace heatwork::report {

/// What a store kept of it.
struct KeptAs {
  std::string firing;
  int version = 0;    ///< of the firing
  int rehearsal = 0;  ///< version of the kept rehearsal
  bool is_new = false;
  std::vector<std::string> added;   ///< "tray light": kept with it for the first time
  std::vector<std::string> differ;  ///< a sentence each: beside the file stood another than in the store
  std::string head;
};

/// What made the result, beside the model version that the rehearsal carries itself.
struct MadeBy {
  std::string program_version;
  std::string data_version;
  std::optional<KeptAs> kept = std::nullopt;
};

/// One JSON object with a line feed at the end; no key is ever absent, what is not known is null, numbers carry ten digits.
/// Errors: std::logic_error naming the key where a number is not finite.
/// `words`: those of the reader, for what stands in words beside the keys.
std::string rehearsal_json(const firing::Rehearsal& rehearsal, const verdict::Verdict& verdict, const MadeBy& made_by,
                           const trade::Words& words, bool traces = false);

}  // namespace heatwork::report
