// Ctrl-C ends at once and cleanly: exit code 130, and no half-written file is left.
#pragma once

#include <csignal>

namespace heatwork::cli {

/// From here on Ctrl-C and a polite end remove the unfinished file; writing to a reader that has gone away gives an error, not a signal.
void watch_interrupts();

/// While it stands Ctrl-C waits: for work that is short and must be whole, such as writing the files of the demo.
class HoldInterrupts {
 public:
  HoldInterrupts();
  HoldInterrupts(const HoldInterrupts&) = delete;
  HoldInterrupts& operator=(const HoldInterrupts&) = delete;
  ~HoldInterrupts();

 private:
  sigset_t before_;
};

/// While it stands Ctrl-C, or a polite end, is a wish that long work asks for and ends cleanly by; the second time it ends at once.
/// After it none is heard any more: what remains is to tell what was done.
class WatchForStop {
 public:
  WatchForStop();
  WatchForStop(const WatchForStop&) = delete;
  WatchForStop& operator=(const WatchForStop&) = delete;
  ~WatchForStop();
  [[nodiscard]] bool asked() const;
};

}  // namespace heatwork::cli
