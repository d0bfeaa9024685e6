#include "server/session_work.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "desk/errors.h"
#include "desk/lab/demo_lab.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/local_time.h"
#include "desk/lab/persons.h"
#include "desk/lab/sign_in.h"
#include "desk/version.h"
#include "server/answer.h"
#include "server/body.h"

namespace heatwork::server {
namespace {

using enum desk::ErrorWord;
constexpr std::string_view body_name = "the body";

[[noreturn]] void refuse(desk::ErrorWord error, const std::string& sentence) {
  throw desk::Failure(error, sentence);
}

std::string_view by_in_words(const Session& session) {
  switch (session.by.load()) {
    case SignedInBy::password:
      return "password";
    case SignedInBy::pin:
      return "PIN";
    case SignedInBy::machine:
      break;
  }
  return "this machine";
}

/// "8 seconds", "3 minutes"
std::string wait_in_words(std::int64_t wait_ms) {
  const std::int64_t seconds = (wait_ms + 999) / 1000;
  if (seconds < 120) return fmt::format("{} {}", seconds, seconds == 1 ? "second" : "seconds");
  return fmt::format("{} minutes", (seconds + 59) / 60);
}

}  // namespace

bool SessionWork::answers(std::string_view id) {
  constexpr std::array<std::string_view, 7> ids{"session",  "play_in_demo",  "sign_in", "say_password",
                                                "sign_out", "keep_password", "keep_pin"};
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

Answer SessionWork::answer(std::string_view id, const Heard& heard, const Asked& asked, const std::shared_ptr<Session>& session) {
  if (id == "session") return state(heard, session);
  if (id == "sign_in") return sign_in(heard, asked, session.get());
  if (id == "say_password") return say_again(heard, asked, *session);
  if (id == "play_in_demo") return play_in_demo(asked, *session);
  if (id == "sign_out") return sign_out(*session);
  if (id == "keep_password") return keep_password(heard, asked, *session);
  return keep_pin(heard, asked, *session);
}

std::string SessionWork::cookie(const std::string& name, const std::string& value, bool secure, std::int64_t lasting_s) const {
  const std::string lasting = lasting_s < 0 ? "" : fmt::format("; Max-Age={}", lasting_s);
  return fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict{}{}", name, value, lasting, secure ? "; Secure" : "");
}

/// In the demo lab one goes on in the language and units of the lab itself, till it is told others.
desk::JsonObject SessionWork::lab_now(const Session& session) const {
  const desk::Json lab = desk::show_lab(gate_.lab_of(session)).json;
  desk::JsonObject now;
  for (const std::string_view key : {"kept", "name", "demo"}) now.push_back({std::string(key), *lab.find(key)});
  if (!session.demo) {
    for (const std::string_view key : {"language", "units"}) now.push_back({std::string(key), *lab.find(key)});
    return now;
  }
  const desk::LabSettings own = desk::lab_settings(gate_.own_lab_of(session));
  const auto told = [&](const char* in_demo, const std::string& of_own) {
    const desk::Json& here = *lab.find(in_demo);
    return here.text() != nullptr || own.document.empty() ? here : desk::Json(of_own);
  };
  now.push_back({"language", told("lab_language", own.language)});
  now.push_back({"units", told("lab_units", own.units)});
  return now;
}

desk::Json SessionWork::demo_language(const Session& session) const {
  if (!session.demo) return {};
  const auto language = desk::language_of_demo_lab(gate_.lab_of(session));
  return language ? desk::Json(std::string(trade::word(*language))) : desk::Json();
}

Answer SessionWork::state_of(const Session& session) const {
  const bool machine = session.by == SignedInBy::machine;
  const desk::CareAnswer who = desk::who_am_i(gate_.lab_of(session));
  desk::JsonObject state{{"format", 1}, {"signed_in", !machine}, {"sign_in_needed", false}};
  for (const std::string_view key : {"person", "known_by", "entered", "role", "may_set_up"})
    state.push_back({std::string(key), *who.json.find(key)});
  state.push_back({"by", by_in_words(session)});
  state.push_back({"token", session.token});
  const bool open = !machine && !gate_.password_is_due(session);
  state.push_back({"password_until", open ? desk::Json(desk::utc_text(session.password_until_ms)) : desk::Json()});
  state.push_back({"lab", lab_now(session)});
  state.push_back({"demo", session.demo.load()});
  state.push_back({"demo_language", demo_language(session)});
  state.push_back({"version", desk::program_version()});
  return answer_of(desk::Json(std::move(state)));
}

Answer SessionWork::state(const Heard& heard, std::shared_ptr<Session> session) {
  if (session != nullptr) return state_of(*session);
  if (gate_.sign_in_needed(heard)) must_sign_in();
  const Sessions::Begun begun = gate_.begin_of_machine();
  Answer answer = state_of(*begun.session);
  answer.headers.emplace_back("Set-Cookie", cookie(gate_.session_cookie(), begun.id, heard.secure, -1));
  return answer;
}

desk::PersonNow SessionWork::checked(const Heard& heard, const std::string& person, desk::Secret which, const std::string& typed,
                                     desk::ErrorWord wrong) {
  const std::string device = heard.cookie(gate_.device_cookie());
  const bool known = gate_.devices().known(device, gate_.now_ms());
  if (which == desk::Secret::pin && !known)
    refuse(not_allowed, "A PIN is for a device on which somebody has signed in by password before; sign in by password.");
  const std::string counted = known ? person + " on " + key_of_secret(device) : person;
  if (const std::int64_t wait = guesses_.begin(counted, heard.from, gate_.now_ms()); wait > 0)
    refuse(too_often, fmt::format("It was tried wrongly too often; try again in {}.", wait_in_words(wait)));
  const auto signed_in = desk::signs_in(gate_.words().lab, person, which, typed);
  if (!signed_in) {
    if (which == desk::Secret::pin) {
      gate_.devices().wrong_pin(device);
      gate_.keep_sessions();
    }
    refuse(wrong, wrong == sign_in_needed ? fmt::format("The person or the {} is wrong.", word(which))
                                          : fmt::format("The {} of \"{}\" is wrong. Nothing was kept.", word(which), person));
  }
  guesses_.right(counted, heard.from);
  if (which == desk::Secret::pin) gate_.devices().right_pin(device);
  return *signed_in;
}

Answer SessionWork::sign_in(const Heard& heard, const Asked& asked, const Session* before) {
  const Body body(body_name, asked.body, {"person", "password", "pin"});
  const bool by_pin = body.has("pin");
  if (by_pin == body.has("password")) refuse(bad_value, "Exactly one of \"password\" and \"pin\" must be given.");
  const auto which = by_pin ? desk::Secret::pin : desk::Secret::password;
  const desk::PersonNow person = checked(heard, body.text("person"), which, body.text(by_pin ? "pin" : "password"), sign_in_needed);
  if (before != nullptr) gate_.sessions().end(*before);
  const bool new_device = !by_pin && !gate_.devices().known(heard.cookie(gate_.device_cookie()), gate_.now_ms());
  const std::string device = new_device ? gate_.devices().enter(gate_.now_ms()) : "";
  const Sessions::Begun begun = gate_.begin(by_pin ? SignedInBy::pin : SignedInBy::password, person);  // keeps all three
  Answer answer = state_of(*begun.session);
  answer.headers.emplace_back("Set-Cookie", cookie(gate_.session_cookie(), begun.id, heard.secure, -1));
  if (new_device)
    answer.headers.emplace_back("Set-Cookie", cookie(gate_.device_cookie(), device, heard.secure, Devices::lasting_ms / 1000));
  return answer;
}

Answer SessionWork::say_again(const Heard& heard, const Asked& asked, Session& session) {
  const Body body(body_name, asked.body, {"password"});
  if (session.by == SignedInBy::machine) refuse(bad_value, "Nobody is signed in, so no password is needed.");
  gate_.raise(session, checked(heard, session.person, desk::Secret::password, body.text("password"), not_allowed));
  return state_of(session);
}

Answer SessionWork::play_in_demo(const Asked& asked, Session& session) {
  const Body body(body_name, asked.body, {"demo"});
  const bool demo = body.truth("demo");
  if (demo) {
    desk::AskedLab lab = gate_.own_lab_of(session);
    lab.store = desk::demo_store_of(gate_.words().lab);
    try {
      desk::make_demo_lab(lab, asked.language);
    } catch (...) {  // one that stands is played in as it stands
      if (desk::explain(std::current_exception()).error != already_there) throw;
    }
  }
  session.demo = demo;
  gate_.keep_sessions();
  return state_of(session);
}

Answer SessionWork::sign_out(const Session& session) {
  gate_.sessions().end(session);
  gate_.keep_sessions();
  Answer answer = answer_of(desk::Json(desk::JsonObject{{"format", 1}, {"signed_in", false}}));
  answer.headers.emplace_back("Set-Cookie", cookie(gate_.session_cookie(), "", false, 0));
  return answer;
}

desk::AskedLab SessionWork::may_change_secret_of(const Heard& heard, const Session& session, const std::string& code,
                                                 const std::string& own) {
  desk::AskedLab lab = gate_.own_lab_of(session);
  const bool machine = session.by == SignedInBy::machine;
  if (machine && !desk::somebody_has_password(lab)) {
    // The first password of a lab: whoever sits at the machine says who he is, as --as would.
    lab.person = code;
    return lab;
  }
  if (!machine && session.person == code) {
    static_cast<void>(checked(heard, code, desk::Secret::password, own, not_allowed));
    return lab;
  }
  // Of the lab itself, also while the demo lab is played in.
  const desk::CareAnswer who = desk::who_am_i(lab);
  const std::string& asker = *who.json.find("person")->text();
  if (asker != code && !*who.json.find("may_set_up")->truth())
    refuse(not_allowed, fmt::format("Person \"{}\" may not set up; a person who may set up must do this.", asker));
  if (gate_.password_is_due(session))
    refuse(password_needed, fmt::format("To release or to set up, person \"{}\" must say the password again. Nothing was kept.", asker));
  return lab;
}

Answer SessionWork::keep_password(const Heard& heard, const Asked& asked, Session& session) {
  const Body body(body_name, asked.body, {"password", "now", "reason"});
  const std::string& code = asked.path.at("code");
  const std::string typed = body.text("password");
  if (typed.empty()) refuse(bad_value, "\"password\" of the body is empty. Nothing was kept.");
  const desk::AskedLab lab = may_change_secret_of(heard, session, code, body.text_or("now", ""));
  const desk::CareAnswer kept = desk::keep_secret(lab, {code, desk::Secret::password, typed, body.text_or("reason", "")});
  gate_.password_changed(code, &session);
  return answer_of(kept);
}

Answer SessionWork::keep_pin(const Heard& heard, const Asked& asked, Session& session) {
  const Body body(body_name, asked.body, {"pin", "password", "reason"});
  const std::string& code = asked.path.at("code");
  const std::string typed = body.text("pin");
  if (typed.empty()) refuse(bad_value, "\"pin\" of the body is empty. Nothing was kept.");
  const desk::AskedLab lab = may_change_secret_of(heard, session, code, body.text_or("password", ""));
  return answer_of(desk::keep_secret(lab, {code, desk::Secret::pin, typed, body.text_or("reason", "")}));
}

}  // namespace heatwork::server
