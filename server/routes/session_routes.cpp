#include <stdexcept>

#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

/// These are answered where sessions are known, by server/session_work.h; they stand here so that the table of routes is whole.
Answer by_the_front(const Asked&) {
  throw std::logic_error("a route of sessions came past the front");
}

}  // namespace

std::vector<Route> session_routes() {
  return {{"GET", "/api/session", "session", Needs::nothing, by_the_front},
          {"POST", "/api/session", "sign_in", Needs::nothing, by_the_front},
          {"DELETE", "/api/session", "sign_out", Needs::sign_in, by_the_front},
          {"POST", "/api/session/password", "say_password", Needs::sign_in, by_the_front},
          {"PUT", "/api/session/demo", "play_in_demo", Needs::sign_in, by_the_front},
          {"PUT", "/api/persons/{code}/password", "keep_password", Needs::sign_in, by_the_front},
          {"PUT", "/api/persons/{code}/pin", "keep_pin", Needs::sign_in, by_the_front}};
}

}  // namespace heatwork::server
