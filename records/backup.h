// Copies of a store: a backup while it is in use, the way back, and the move between engines. A copy is proven before it is called one.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "records/store.h"
#include "records/verify.h"

namespace heatwork::records {

struct BackUpAsked {
  std::string folder;                    ///< must be there: one that is made by mistake hides a disk that was not plugged in
  int keep = 0;                          ///< newest copies that stay; 0: all
  std::optional<std::int64_t> if_due_s;  ///< only where the newest copy in the folder is older [s]
  std::string now_utc;
  IndexOf index_of;
  Watch watch;
};

struct BackUpMade {
  bool made = false;  ///< false: not due yet
  std::string path;   ///< of the copy; where it is not due, of the newest there is
  std::string head;   ///< hash of the newest entry in it
  std::string export_hash;
  std::int64_t bytes = 0;
  std::vector<std::string> dropped;  ///< older copies of this store that went
  std::vector<std::string> said;     ///< sentences on what else was met in the folder: copies from the future, leftovers
};

/// A copy of the whole store as it was at one moment, as one SQLite file whatever the engine, with a text beside it that tells head hash,
/// export hash and how to restore. It is opened, verified and compared before it gets its name; copies of other stores are left alone.
/// Errors: StoreError; then no half copy is left.
BackUpMade back_up(Store& store, const BackUpAsked& asked);

struct Copied {
  std::string export_hash;
  std::string head;
  std::int64_t documents = 0, entries = 0;
};

/// Puts a backup where no store stands, migrating it where it is of an earlier format. Errors: StoreError; then nothing is left there.
Copied restore(const std::string& backup, const Address& to, const Opening& opening, const Watch& watch = {});

/// Copies everything to an address where no store stands, proves the copy, then closes the old one for writing.
/// Errors: StoreError; then the old one goes on and nothing is left at the new address.
Copied move(Store& from, const Address& to, const Opening& opening, const Watch& watch = {});

}  // namespace heatwork::records
