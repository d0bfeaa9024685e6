#include "server/guesses.h"

#include <algorithm>

namespace heatwork::server {
namespace {

constexpr std::size_t most_kept = 10'000;
constexpr std::int64_t forgotten_after_ms = 60LL * 60 * 1000;
constexpr int free_of_an_address = 20;  // several persons share a tablet

std::string of_person(const std::string& person) {
  return "person " + person.substr(0, 100);
}
std::string of_address(const std::string& address) {
  return "address " + address;
}

}  // namespace

std::int64_t Guesses::wait_of(const std::string& key, std::int64_t now_ms) {
  const auto found = tries_.find(key);
  return found == tries_.end() ? 0 : std::max<std::int64_t>(0, found->second.next_ms - now_ms);
}

void Guesses::count(const std::string& key, int free, std::int64_t now_ms) {
  Tries& tries = tries_[key];
  if (now_ms - tries.last_ms > forgotten_after_ms) tries = {};
  tries.last_ms = now_ms;
  ++tries.wrong;
  if (tries.wrong < free) return;
  const int doubled = std::min(tries.wrong - free, 20);
  tries.next_ms = now_ms + std::min<std::int64_t>(longest_wait_ms, 1000LL << doubled);
}

std::int64_t Guesses::begin(const std::string& person, const std::string& address, std::int64_t now_ms) {
  const std::lock_guard lock(mutex_);
  const std::int64_t wait = std::max(wait_of(of_person(person), now_ms), wait_of(of_address(address), now_ms));
  if (wait > 0) return wait;
  make_room(now_ms);
  count(of_person(person), free_tries, now_ms);
  count(of_address(address), free_of_an_address, now_ms);
  return 0;
}

void Guesses::right(const std::string& person, const std::string& address) {
  const std::lock_guard lock(mutex_);
  tries_.erase(of_person(person));
  // Not the address: whoever knows one password does not get free guesses at others by it. The try itself is given back.
  const auto found = tries_.find(of_address(address));
  if (found != tries_.end() && found->second.wrong > 0) {
    --found->second.wrong;
    found->second.next_ms = 0;
  }
}

void Guesses::make_room(std::int64_t now_ms) {
  if (tries_.size() < most_kept) return;
  std::erase_if(tries_, [&](const auto& entry) { return now_ms - entry.second.last_ms > forgotten_after_ms; });
  while (tries_.size() >= most_kept) {  // many names from one place must not push out what is known of that place
    const auto oldest = std::min_element(tries_.begin(), tries_.end(), [](const auto& one, const auto& other) {
      return one.second.last_ms + longest_wait_ms * one.second.wrong < other.second.last_ms + longest_wait_ms * other.second.wrong;
    });
    tries_.erase(oldest);
  }
}

}  // namespace heatwork::server
