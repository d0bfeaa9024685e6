#include "desk/lab/clock.h"

#include <date/tz.h>

#include <chrono>
#include <stdexcept>

namespace heatwork::desk {
namespace {

using std::chrono::milliseconds;

class MachineClock : public Clock {
 public:
  [[nodiscard]] std::int64_t now_ms() const override {
    return date::floor<milliseconds>(std::chrono::system_clock::now()).time_since_epoch().count();
  }
};

/// "" where the machine knows no zone of this name.
std::string known_zone(std::string name) {
  if (name.starts_with(':')) name.erase(0, 1);
  try {
    return name.empty() ? "" : date::locate_zone(name)->name();
  } catch (const std::runtime_error&) {
    return "";
  }
}

std::string zone_of_machine() {
  try {
    return date::current_zone()->name();
  } catch (const std::runtime_error&) {
    return "";
  }
}

}  // namespace

const Clock& clock_of_machine() {
  static const MachineClock clock;
  return clock;
}

std::string exact_utc_text(std::int64_t at_ms) {
  return date::format("%FT%TZ", date::sys_time<milliseconds>(milliseconds(at_ms)));
}

Zone zone_of_lab(const Settings& settings, const Variables& variables) {
  if (!settings.zone.empty()) return {settings.zone, "setting"};
  if (const std::string set = variables("TZ"); !set.empty()) {
    // Rules spelled out in TZ, such as "CET-1CEST", name no zone; the zone of the machine is then not what is meant either.
    const std::string zone = known_zone(set);
    return zone.empty() ? Zone{"UTC", "none known"} : Zone{zone, "TZ"};
  }
  const std::string zone = zone_of_machine();
  return zone.empty() ? Zone{"UTC", "none known"} : Zone{zone, "machine"};
}

}  // namespace heatwork::desk
