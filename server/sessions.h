// Sessions: who is at the other end of a browser, for how long, and the token that its writes must carry.
#pragma once

#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>
#include <vector>

#include "server/session.h"
#include "server/session_file.h"

namespace heatwork::server {

struct SessionTimes {
  std::int64_t idle_ms = 8LL * 60 * 60 * 1000;       ///< after so long without a request it ends
  std::int64_t pin_idle_ms = 60LL * 60 * 1000;       ///< the same, where it was begun by PIN
  std::int64_t absolute_ms = 14LL * 60 * 60 * 1000;  ///< after so long it ends whatever happens
  std::int64_t password_ms = 10LL * 60 * 1000;       ///< so long after a password release and set-up are open
};

/// Safe from several threads.
class Sessions {
 public:
  explicit Sessions(SessionTimes times = {}) : times_(times) {}

  struct Begun {
    std::string id;  ///< for the cookie; it is kept nowhere
    std::shared_ptr<Session> session;
  };
  Begun begin(SignedInBy by, const std::string& person, std::int64_t now_ms);
  /// nullptr where there is none of this id, or it has ended. A found one begins its idle time anew.
  std::shared_ptr<Session> find(const std::string& id, std::int64_t now_ms);
  void end(const Session& session);
  /// All of a person, but for one that may stay.
  void end_all_of(const std::string& person, const Session* but = nullptr);
  [[nodiscard]] std::size_t count() const;

  /// Those that a restart would lose: of persons, and those that play in the demo lab.
  [[nodiscard]] std::vector<SessionKept> all() const;
  /// As they stood; what has ended meanwhile stays ended.
  void put_back(const std::vector<SessionKept>& kept, std::int64_t now_ms);
  [[nodiscard]] const SessionTimes& times() const { return times_; }

 private:
  void make_room(std::int64_t now_ms);
  [[nodiscard]] bool ended(const Session& session, std::int64_t now_ms) const;

  SessionTimes times_;
  mutable std::mutex mutex_;
  std::unordered_map<std::string, std::shared_ptr<Session>> by_key_;
};

/// 256 random bits as 64 hexadecimal digits.
std::string random_id();
/// What writes of the session of that id carry; it tells nothing of the id.
std::string token_of(const std::string& id);
/// By what such an id is kept: a hash, from which it is not found again.
std::string key_of_secret(const std::string& id);
/// Whether two texts are equal, in a time that does not tell where they differ.
bool same_secret(std::string_view one, std::string_view other);

}  // namespace heatwork::server
