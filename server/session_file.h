// Sessions and known devices on the disk, so that a restart of the server asks nobody to sign in again. What is kept opens nothing: of ids
// there are hashes alone, and the token of writes is made from the id that the browser brings.
#pragma once

#include <cstdint>
#include <functional>
#include <mutex>
#include <string>
#include <vector>

#include "server/session.h"

namespace heatwork::server {

/// A session as it is kept; see server/session.h.
struct SessionKept {
  std::string key, person, mark;
  SignedInBy by = SignedInBy::machine;
  bool demo = false;
  std::int64_t begun_ms = 0, seen_ms = 0, password_until_ms = 0;
};

struct DeviceKept {
  std::string key;
  std::int64_t entered_ms = 0;
  int wrong_pins = 0;
};

struct AllKept {
  std::vector<SessionKept> sessions;
  std::vector<DeviceKept> devices;
};

/// Safe from several threads.
class SessionFile {
 public:
  /// `path` empty: nothing is kept. `lab`: address of the store; what was kept of another one is not read.
  SessionFile(std::string path, std::string lab) : path_(std::move(path)), lab_(std::move(lab)) {}

  /// Nothing where there is no file, or none of ours: then persons sign in again.
  [[nodiscard]] AllKept read() const;
  /// Whole or not at all, readable by its owner alone, on the disk when it returns. One after the other, each as `now` tells it then.
  /// A disk that takes nothing ends no session: they stay in memory.
  void keep(const std::function<AllKept()>& now);
  [[nodiscard]] bool keeps() const { return !path_.empty(); }

 private:
  std::string path_, lab_;
  std::mutex mutex_;
};

/// Where the server of that port keeps them; empty for port 0, whose next one would be another.
std::string session_file_of(const std::string& data_folder, int port);

}  // namespace heatwork::server
