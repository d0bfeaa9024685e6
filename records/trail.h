// The trail: every change there ever was, in order, each entry sealed with the hash of the one before.
#pragma once

#include <cstdint>
#include <string>

namespace heatwork::records {

/// Who changes something, when, and how it is known that it is he.
struct Who {
  std::string person;    ///< code of a person
  std::string known_by;  ///< "named", "setting", "log-in name", "password"
  std::string at_utc;    ///< 2026-11-25T17:11:04.123Z
  std::string zone;      ///< "Europe/Berlin", the zone of the machine
};

/// One entry. `document_hash` names what was kept (of a document, a photo, or salted of personal data), `replaced_hash` the version before.
struct Entry {
  std::int64_t sequence = 0;  ///< from 1, without gaps
  Who who;
  std::string
      action;  ///< "store made", "added", "changed", "started", "ended", "photo kept", "personal data kept", "personal data erased" ...
  std::string kind, id;
  int version = 0;
  std::string document_hash, replaced_hash;
  std::string reason;
  std::string previous;  ///< hash of the entry before; 64 zeros for the first
  std::string hash;      ///< entry_hash of the rest
};

/// BLAKE2b-256 over every other column in order, each with its length before it. [64 hexadecimal digits]
std::string entry_hash(const Entry& entry);

}  // namespace heatwork::records
