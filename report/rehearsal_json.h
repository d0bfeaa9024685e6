// A rehearsal with its findings as JSON, for other programs. The form is written down in docs/formats/rehearsal-json.md.
#pragma once

#include <string>

#include "firing/rehearsal.h"
#include "verdict/finding.h"

namespace heatwork::report {

/// What made the result, beside the model version that the rehearsal carries itself.
struct MadeBy {
  std::string program_version;
  std::string data_version;
};

/// One JSON object with a line feed at the end; no key is ever absent, what is not known is null, numbers carry ten digits.
/// Errors: std::logic_error naming the key where a number is not finite.
std::string rehearsal_json(const firing::Rehearsal& rehearsal, const verdict::Verdict& verdict, const MadeBy& made_by, bool traces = false);

}  // namespace heatwork::report
