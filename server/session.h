// One session: who it is, since when, and what it may do for now.
#pragma once

#include <atomic>
#include <cstdint>
#include <string>

namespace heatwork::server {

enum class SignedInBy { machine, password, pin };

struct Session {
  std::string key;     ///< names it inside the server: a hash of its id, the same as long as it lasts
  std::string token;   ///< what a write must carry
  std::string person;  ///< code; empty: the person of this machine
  std::string mark;    ///< of the password it was begun under, see desk/lab/sign_in.h; changed and read by server/gate.h alone
  std::atomic<SignedInBy> by{SignedInBy::machine};
  std::atomic<bool> demo{false};          ///< it plays in the demo lab
  std::atomic<std::int64_t> begun_ms{0};  ///< ms since 1970-01-01 UTC, as the rest
  std::atomic<std::int64_t> seen_ms{0};
  std::atomic<std::int64_t> password_until_ms{0};  ///< release and set-up are open till then
};

}  // namespace heatwork::server
