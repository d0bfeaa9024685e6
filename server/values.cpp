#include "server/values.h"

#include <algorithm>
#include <stdexcept>

namespace heatwork::server {

const std::string* Values::find(std::string_view name) const {
  const auto found = std::find_if(pairs_.begin(), pairs_.end(), [&](const Pair& pair) { return pair.first == name; });
  return found == pairs_.end() ? nullptr : &found->second;
}

const std::string& Values::at(std::string_view name) const {
  if (const std::string* found = find(name)) return *found;
  throw std::logic_error("a route asks for a name that its path does not hold: " + std::string(name));
}

}  // namespace heatwork::server
