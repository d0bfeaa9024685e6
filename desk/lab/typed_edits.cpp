#include "desk/lab/typed_edits.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "desk/errors.h"
#include "trade/mistake.h"

namespace heatwork::desk {

std::vector<trade::Edit> edits_of(const std::vector<std::string>& set, const std::vector<std::string>& unset) {
  std::vector<trade::Edit> edits;
  for (const std::string& each : set) {
    const auto equals = each.find('=');
    if (equals == std::string::npos || equals == 0)
      throw Failure(ErrorWord::bad_value,
                    fmt::format("\"{}\" must be KEY=VALUE, as in drying_time=\"4 min\".", trade::for_message(each, 80)));
    std::string key = each.substr(0, equals), value = each.substr(equals + 1);
    key.erase(key.find_last_not_of(' ') + 1);
    value.erase(0, value.find_first_not_of(' '));
    edits.push_back({key, value});
  }
  for (const std::string& each : unset) edits.push_back({each, std::nullopt});
  for (const trade::Edit& each : edits) {
    const auto same = std::count_if(edits.begin(), edits.end(), [&](const trade::Edit& other) { return other.key == each.key; });
    if (same > 1)
      throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" is given twice; give it once.", trade::for_message(each.key, 80)));
  }
  return edits;
}

}  // namespace heatwork::desk
