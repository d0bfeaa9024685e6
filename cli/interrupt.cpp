#include "cli/interrupt.h"

#include <unistd.h>

#include <cstring>

#include "desk/files.h"

namespace heatwork::cli {
namespace {

constexpr int stopped_exit = 130;

volatile std::sig_atomic_t waits_for_stop = 0;
volatile std::sig_atomic_t stop_asked = 0;

// Only calls that are safe in a signal handler.
void remove_unfinished() {
  const char* file = desk::unfinished_file();
  if (file[0] != '\0') ::unlink(file);
}

bool only_asked() {
  if (waits_for_stop == 0 || stop_asked != 0) return false;
  stop_asked = 1;
  constexpr char said[] = "\nStopping at the next step; Ctrl-C again ends at once.\n";
  [[maybe_unused]] const ssize_t ignored = ::write(STDERR_FILENO, said, sizeof said - 1);
  return true;
}

void on_interrupt(int) {
  if (only_asked()) return;
  remove_unfinished();
  constexpr char said[] = "\nStopped.\n";
  [[maybe_unused]] const ssize_t ignored = ::write(STDERR_FILENO, said, sizeof said - 1);
  ::_exit(stopped_exit);
}

void on_end(int signal) {
  if (only_asked()) return;
  remove_unfinished();
  ::signal(signal, SIG_DFL);
  ::raise(signal);
}

sigset_t interrupts() {
  sigset_t all;
  sigemptyset(&all);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&all, signal);
  return all;
}

void handle(int signal, void (*handler)(int)) {
  struct sigaction action {};
  action.sa_handler = handler;
  sigemptyset(&action.sa_mask);
  ::sigaction(signal, &action, nullptr);
}

}  // namespace

void watch_interrupts() {
  handle(SIGINT, on_interrupt);
  handle(SIGTERM, on_end);
  handle(SIGHUP, on_end);
  handle(SIGPIPE, SIG_IGN);
}

HoldInterrupts::HoldInterrupts() {
  const sigset_t held = interrupts();
  ::sigprocmask(SIG_BLOCK, &held, &before_);
}

HoldInterrupts::~HoldInterrupts() {
  ::sigprocmask(SIG_SETMASK, &before_, nullptr);
}

WatchForStop::WatchForStop() {
  const sigset_t heard = interrupts();
  ::sigprocmask(SIG_UNBLOCK, &heard, nullptr);
  stop_asked = 0;
  waits_for_stop = 1;
}

WatchForStop::~WatchForStop() {
  // What was done is told now; nothing is left that could be stopped, and "stopped" would not be true.
  const sigset_t held = interrupts();
  ::sigprocmask(SIG_BLOCK, &held, nullptr);
  waits_for_stop = 0;
}

bool WatchForStop::asked() const {
  return stop_asked != 0;
}

}  // namespace heatwork::cli
