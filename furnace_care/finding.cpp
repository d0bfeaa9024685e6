#include "furnace_care/finding.h"

#include <fmt/format.h>

#include <algorithm>

namespace heatwork::furnace_care {

std::string in_time(double days) {
  if (days < 14.0) return fmt::format("{:.0f} days", std::max(2.0, days));
  if (days < 70.0) return fmt::format("{:.0f} weeks", days / 7.0);
  return fmt::format("{:.0f} months", days / 30.4);
}

}  // namespace heatwork::furnace_care
