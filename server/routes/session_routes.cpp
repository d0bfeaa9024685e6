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
          {"POST", "/api/session", "signIn", Needs::nothing, by_the_front},
          {"DELETE", "/api/session", "signOut", Needs::sign_in, by_the_front},
          {"POST", "/api/session/password", "sayPassword", Needs::sign_in, by_the_front},
          {"PUT", "/api/persons/{code}/password", "keepPassword", Needs::sign_in, by_the_front},
          {"PUT", "/api/persons/{code}/pin", "keepPin", Needs::sign_in, by_the_front}};
}

}  // namespace heatwork::server
