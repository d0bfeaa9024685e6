// Who may come in: host and origin, session, sign-in, token and role, asked in one place before any route answers.
#pragma once

#include <atomic>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/sign_in.h"
#include "server/devices.h"
#include "server/heard.h"
#include "server/route.h"
#include "server/session_file.h"
#include "server/sessions.h"

namespace heatwork::server {

struct GateWords {
  desk::AskedLab lab;              ///< of the one who started the server
  std::vector<std::string> hosts;  ///< names it answers to, without port, in small letters; empty: any
  int port = 0;                    ///< part of the cookies' names: cookies know no ports
  SessionTimes times{};
  std::function<std::int64_t()> now_ms{};  ///< empty: the clock of the machine
  std::string sessions_file{};             ///< where they are kept over a restart; empty: nowhere
};

/// Safe from several threads.
class Gate {
 public:
  explicit Gate(GateWords words);
  ~Gate();
  Gate(const Gate&) = delete;
  Gate& operator=(const Gate&) = delete;

  // Errors of all: Failure not_allowed, sign_in_needed, password_needed with one sentence.

  /// Of every request: the name it was sent to, and, where it writes, the page it comes from.
  void check_host_and_origin(const Heard& heard) const;
  /// The session of whoever may ask this; a passing one where nobody needs to sign in and none was begun; nullptr where the route needs
  /// nothing and there is none.
  std::shared_ptr<Session> let_in(const Heard& heard, const Route& route);
  /// Whether a file of the page may be given to whoever asks; else he is sent to sign in.
  bool page_is_open(const Heard& heard);

  /// Whether whoever asks from there must sign in: always from another machine, else as soon as somebody has a password.
  bool sign_in_needed(const Heard& heard);
  /// The session by its cookie, where it stands and its person still does; else nullptr.
  std::shared_ptr<Session> session_of(const Heard& heard);
  /// The lab as that session asks for it.
  [[nodiscard]] desk::AskedLab lab_of(const Session& session) const;
  /// The same, never that of the demo: who somebody is stands in the lab's own store.
  [[nodiscard]] desk::AskedLab own_lab_of(const Session& session) const;
  [[nodiscard]] bool password_is_due(const Session& session) const;

  Sessions::Begun begin(SignedInBy by, const desk::PersonNow& person);
  Sessions::Begun begin_of_machine();
  /// A password was said again: release and set-up are open anew.
  void raise(Session& session, const desk::PersonNow& person);
  /// A password changed: what is remembered of persons is dropped, their sessions end but for this one.
  void password_changed(const std::string& person, Session* but);
  Sessions& sessions() { return sessions_; }
  Devices& devices() { return devices_; }
  /// Sessions and devices as they stand now, kept before anybody is told of a change of them.
  void keep_sessions();

  [[nodiscard]] std::int64_t now_ms() const { return words_.now_ms(); }
  [[nodiscard]] const GateWords& words() const { return words_; }
  [[nodiscard]] std::string session_cookie() const;
  [[nodiscard]] std::string device_cookie() const;

 private:
  struct Remembered {
    std::int64_t at_ms = 0;
    std::optional<desk::PersonNow> person;
  };
  std::optional<desk::PersonNow> person_now(const std::string& code);
  bool stands(Session& session);
  void check_token(const Heard& heard, const Session* session) const;
  void check_role(const Session& session, Needs needs);

  GateWords words_;
  Sessions sessions_;
  Devices devices_;
  SessionFile file_;
  std::atomic<std::int64_t> kept_ms_{0};
  std::mutex mutex_;  ///< of all below, and of the marks in sessions
  std::map<std::string, Remembered> persons_;
  std::int64_t asked_for_passwords_ms_ = 0;
  bool somebody_has_password_ = false;
};

/// Errors: always Failure sign_in_needed, told in the answer as a member too.
[[noreturn]] void must_sign_in();

/// From this machine itself.
bool is_loopback(std::string_view address);

}  // namespace heatwork::server
