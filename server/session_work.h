// Signing in and out, the way into the demo lab, the PIN, the password said again, and passwords and PINs kept from the page.
#pragma once

#include <memory>
#include <string>

#include "desk/errors.h"
#include "server/gate.h"
#include "server/guesses.h"
#include "server/heard.h"
#include "server/route.h"

namespace heatwork::server {

/// Safe from several threads. Errors of all: Failure with one sentence.
class SessionWork {
 public:
  explicit SessionWork(Gate& gate) : gate_(gate) {}

  /// Whether a route, by its id, is answered here.
  static bool answers(std::string_view id);
  /// `session` as the gate let it in; nullptr where there is none.
  Answer answer(std::string_view id, const Heard& heard, const Asked& asked, const std::shared_ptr<Session>& session);

 private:
  Answer state(const Heard& heard, std::shared_ptr<Session> session);
  Answer sign_in(const Heard& heard, const Asked& asked, const Session* before);
  Answer say_again(const Heard& heard, const Asked& asked, Session& session);
  Answer play_in_demo(const Asked& asked, Session& session);
  Answer sign_out(const Session& session);
  Answer keep_password(const Heard& heard, const Asked& asked, Session& session);
  Answer keep_pin(const Heard& heard, const Asked& asked, Session& session);
  [[nodiscard]] desk::JsonObject lab_now(const Session& session) const;
  [[nodiscard]] desk::Json demo_language(const Session& session) const;
  [[nodiscard]] Answer state_of(const Session& session) const;
  [[nodiscard]] std::string cookie(const std::string& name, const std::string& value, bool secure, std::int64_t lasting_s) const;
  /// The person, where the secret is right. Errors: Failure too_often, busy; `wrong` where it is not right.
  desk::PersonNow checked(const Heard& heard, const std::string& person, desk::Secret which, const std::string& typed,
                          desk::ErrorWord wrong);
  /// One's own password said beside a change of it, or the right to set up; the lab as whoever may.
  [[nodiscard]] desk::AskedLab may_change_secret_of(const Heard& heard, const Session& session, const std::string& code,
                                                    const std::string& own);

  Gate& gate_;
  Guesses guesses_;
};

}  // namespace heatwork::server
