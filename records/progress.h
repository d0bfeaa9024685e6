// Tells whoever watches a long work how far it has come, and ends it where he asks for that.
#pragma once

#include <cstdint>
#include <utility>

#include "records/store_error.h"
#include "records/verify.h"

namespace heatwork::records {

class Progress {
 public:
  Progress(Watch watch, std::int64_t all) : watch_(std::move(watch)), all_(all) {}

  /// One row more is done. Errors: StoreError where the watcher stops the work.
  void step() {
    if (++done_ % 256 == 0) tell();
  }
  void tell() const {
    if (watch_ && !watch_(done_, all_)) throw Stopped();
  }

  /// The watcher's wish, on its way out of the work.
  class Stopped : public StoreError {
   public:
    Stopped() : StoreError(StoreProblem::refused, "The work was stopped before its end; nothing of it is left.") {}
  };

 private:
  Watch watch_;
  std::int64_t all_ = 0, done_ = 0;
};

}  // namespace heatwork::records
