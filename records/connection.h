// The connection behind an open store: how a session to either engine is made and what it is doing.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "records/engine_error.h"
#include "records/inside.h"

namespace heatwork::records {

struct Store::Inside::Connection {
  std::unique_ptr<soci::session> session;
  std::string file;  ///< of SQLite, as it is opened: a store being made has another name than its address
  int depth = 0;     ///< of views and transactions that are open; only the outermost speaks to the engine
  bool writing = false, committing = false;
  bool broken = false;  ///< it was cut; the next use makes a new one
  /// SQLite without the right to write: the file as it was when it was opened without locks; empty: locks are used.
  std::string unlocked;
};

/// Where the file of a store stands, from the root.
std::string file_of(const Address& address);

/// Makes the session of a store whose file or database stands. Errors: StoreError.
void connect(Store::Inside& inside);

/// Size, time of change and the log beside it: differs once another program wrote.
std::string state_of_file(const std::string& path);

Doing doing(const Store::Inside& inside);

/// Runs what speaks to the engine; its errors come out as StoreError.
template <class Work>
auto speaking(Store::Inside& inside, Work&& work) {
  try {
    return work();
  } catch (...) {
    const Doing now = doing(inside);
    try {
      throw_as_store_error(now);
    } catch (const StoreError& error) {
      if (error.problem() == StoreProblem::unreachable) inside.connection->broken = true;
      throw;
    }
  }
}

}  // namespace heatwork::records
