#include "furnace_care/finding.h"

#include <fmt/format.h>

#include <algorithm>

namespace heatwork::furnace_care {

CheckLevel level_of(const std::vector<CareFinding>& findings) {
  const auto any = [&](CheckLevel level) {
    return std::any_of(findings.begin(), findings.end(), [&](const CareFinding& finding) { return finding.level == level; });
  };
  if (any(CheckLevel::not_good)) return CheckLevel::not_good;
  return any(CheckLevel::cannot_tell) || findings.empty() ? CheckLevel::cannot_tell : CheckLevel::good;
}

std::string sentence_of(const std::vector<CareFinding>& findings) {
  const CheckLevel level = level_of(findings);
  const auto first = std::find_if(findings.begin(), findings.end(), [&](const CareFinding& finding) { return finding.level == level; });
  return first == findings.end() ? "" : first->sentence;
}

std::string in_time(double days) {
  if (days < 14.0) return fmt::format("{:.0f} days", std::max(2.0, days));
  if (days < 70.0) return fmt::format("{:.0f} weeks", days / 7.0);
  return fmt::format("{:.0f} months", days / 30.4);
}

}  // namespace heatwork::furnace_care
