// One thing that a check of a furnace looked at, and what was found.
#pragma once

#include <string>
#include <vector>

#include "furnace_care/question.h"

namespace heatwork::furnace_care {

struct CareFinding {
  std::string about;  ///< "pump", "lowest pressure", "chamber", "element", "lining", "mains", "water"
  CheckLevel level = CheckLevel::cannot_tell;
  std::string sentence;
};

/// Not good where one finding is, else cannot tell where one cannot or there is none, else good.
[[nodiscard]] CheckLevel level_of(const std::vector<CareFinding>& findings);
/// That of the first finding of this level; empty without a finding.
[[nodiscard]] std::string sentence_of(const std::vector<CareFinding>& findings);

/// "3 weeks": a time ahead, as roughly as it is known.
[[nodiscard]] std::string in_time(double days);

}  // namespace heatwork::furnace_care
