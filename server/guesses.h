// Guessing is slowed: after some wrong tries each further one must wait, longer each time, by person and by address apart.
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <string>

namespace heatwork::server {

/// A person who tries from a known device is counted apart ("mara on 4f2a..."): strangers cannot lock him out there.
/// Safe from several threads. Times in ms since 1970-01-01 UTC.
class Guesses {
 public:
  static constexpr int free_tries = 3;
  static constexpr std::int64_t longest_wait_ms = 15LL * 60 * 1000;

  /// A try begins. 0: it may, and counts as wrong until it was right; else how long this person, or this address, must still wait. [ms]
  [[nodiscard]] std::int64_t begin(const std::string& person, const std::string& address, std::int64_t now_ms);
  void right(const std::string& person, const std::string& address);

 private:
  struct Tries {
    int wrong = 0;
    std::int64_t next_ms = 0, last_ms = 0;
  };
  std::int64_t wait_of(const std::string& key, std::int64_t now_ms);
  void count(const std::string& key, int free, std::int64_t now_ms);
  void make_room(std::int64_t now_ms);

  std::mutex mutex_;
  std::map<std::string, Tries> tries_;
};

}  // namespace heatwork::server
