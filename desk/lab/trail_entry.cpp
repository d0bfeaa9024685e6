#include "desk/lab/trail_entry.h"

#include "desk/lab/local_time.h"

namespace heatwork::desk {

JsonObject entry_as_json(const records::Entry& entry) {
  return {{"sequence", static_cast<double>(entry.sequence)},
          {"at", entry.who.at_utc},
          {"zone", entry.who.zone},
          {"person", entry.who.person},
          {"known_by", entry.who.known_by},
          {"action", entry.action},
          {"reason", entry.reason}};
}

std::string local_time_of(const records::Entry& entry, std::string_view zone) {
  return local_text(utc_ms(entry.who.at_utc), zone);
}

}  // namespace heatwork::desk
