#include "server/devices.h"

#include <algorithm>

#include "server/sessions.h"

namespace heatwork::server {
namespace {

constexpr std::size_t most_devices = 1000;

}  // namespace

std::string Devices::enter(std::int64_t now_ms) {
  const std::string id = random_id();
  const std::lock_guard lock(mutex_);
  if (by_key_.size() >= most_devices)
    by_key_.erase(std::min_element(by_key_.begin(), by_key_.end(),
                                   [](const auto& one, const auto& other) { return one.second.entered_ms < other.second.entered_ms; }));
  by_key_[key_of_secret(id)] = {now_ms, 0};
  return id;
}

bool Devices::known(const std::string& id, std::int64_t now_ms) {
  if (id.empty()) return false;
  const std::lock_guard lock(mutex_);
  const auto found = by_key_.find(key_of_secret(id));
  return found != by_key_.end() && now_ms - found->second.entered_ms < lasting_ms;
}

void Devices::wrong_pin(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = by_key_.find(key_of_secret(id));
  if (found != by_key_.end() && ++found->second.wrong_pins >= most_wrong_pins) by_key_.erase(found);
}

void Devices::right_pin(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = by_key_.find(key_of_secret(id));
  if (found != by_key_.end()) found->second.wrong_pins = 0;
}

std::vector<DeviceKept> Devices::all() {
  const std::lock_guard lock(mutex_);
  std::vector<DeviceKept> all;
  for (const auto& [key, device] : by_key_) all.push_back({key, device.entered_ms, device.wrong_pins});
  std::sort(all.begin(), all.end(), [](const DeviceKept& one, const DeviceKept& other) { return one.key < other.key; });
  return all;
}

void Devices::put_back(const std::vector<DeviceKept>& kept, std::int64_t now_ms) {
  const std::lock_guard lock(mutex_);
  for (const DeviceKept& each : kept)
    if (now_ms - each.entered_ms < lasting_ms && by_key_.size() < most_devices) by_key_[each.key] = {each.entered_ms, each.wrong_pins};
}

}  // namespace heatwork::server
