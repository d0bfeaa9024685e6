// Rehearsals that answer while one types: few threads, numbers before bands before stress, and a newer edit of a session stops the older.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "desk/lab/rehearse_edited.h"

namespace heatwork::desk {

struct LiveQuestion {
  std::string session;    ///< of a session and its tab: edits of one supersede each other
  std::int64_t edit = 0;  ///< rises from edit to edit
  AskedLab lab;
  EditedFiring firing;
  bool bands = false;
  bool stress = false;
  Manner manner;
};

class LiveRehearsals {
 public:
  /// `threads` 0: as many as the machine has.
  explicit LiveRehearsals(unsigned threads = 0);
  ~LiveRehearsals();
  LiveRehearsals(const LiveRehearsals&) = delete;
  LiveRehearsals& operator=(const LiveRehearsals&) = delete;

  /// Waits for its turn and answers. Errors: Failure superseded where a newer edit of the session was asked for before or meanwhile, busy
  /// where too many wait; those of rehearse_edited.
  EditedRehearsal answer(const LiveQuestion& question);

 private:
  class Threads;
  std::unique_ptr<Threads> threads_;
};

}  // namespace heatwork::desk
