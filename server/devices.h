// Devices on which somebody signed in by password: there a PIN will do for a change of person.
#pragma once

#include <cstdint>
#include <mutex>
#include <string>
#include <unordered_map>
#include <vector>

#include "server/session_file.h"

namespace heatwork::server {

/// Safe from several threads.
class Devices {
 public:
  static constexpr int most_wrong_pins = 5;
  static constexpr std::int64_t lasting_ms = 30LL * 24 * 60 * 60 * 1000;

  /// The id for its cookie.
  std::string enter(std::int64_t now_ms);
  [[nodiscard]] bool known(const std::string& id, std::int64_t now_ms);
  /// After some in a row the device is no longer known: a password is asked again.
  void wrong_pin(const std::string& id);
  void right_pin(const std::string& id);

  /// As they stand, and put back as they stood.
  [[nodiscard]] std::vector<DeviceKept> all();
  void put_back(const std::vector<DeviceKept>& kept, std::int64_t now_ms);

 private:
  struct Device {
    std::int64_t entered_ms = 0;
    int wrong_pins = 0;
  };
  std::mutex mutex_;
  std::unordered_map<std::string, Device> by_key_;
};

}  // namespace heatwork::server
