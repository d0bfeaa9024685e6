// What time it is and in which zone the lab lives; handed in, so that a test can say so itself.
#pragma once

#include <cstdint>
#include <string>

#include "desk/lab/settings.h"

namespace heatwork::desk {

class Clock {
 public:
  virtual ~Clock() = default;
  /// [ms since 1970-01-01 UTC]
  [[nodiscard]] virtual std::int64_t now_ms() const = 0;
};

/// That of the machine.
const Clock& clock_of_machine();

/// "2026-11-25T17:11:04.123Z", as the trail has it.
std::string exact_utc_text(std::int64_t at_ms);

struct Zone {
  std::string name;  ///< "Europe/Berlin"
  std::string from;  ///< "setting", "TZ", "machine", or "none known": then it is UTC, and whoever shows a time says so
};
/// The setting, else TZ, else that of the machine; where none is known UTC, never a guess.
Zone zone_of_lab(const Settings& settings, const Variables& variables);

}  // namespace heatwork::desk
