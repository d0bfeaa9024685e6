#include "records/trail.h"

#include "records/hash.h"

namespace heatwork::records {

std::string entry_hash(const Entry& entry) {
  return Hash()
      .value(entry.sequence)
      .value(entry.who.at_utc)
      .value(entry.who.zone)
      .value(entry.who.person)
      .value(entry.who.known_by)
      .value(entry.action)
      .value(entry.kind)
      .value(entry.id)
      .value(entry.version)
      .value(entry.document_hash)
      .value(entry.replaced_hash)
      .value(entry.reason)
      .value(entry.previous)
      .hex();
}

}  // namespace heatwork::records
