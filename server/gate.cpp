#include "server/gate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "desk/errors.h"
#include "desk/lab/clock.h"
#include "desk/lab/demo_lab.h"
#include "desk/lab/persons.h"
#include "desk/lab/which_store.h"
#include "server/answer.h"

namespace heatwork::server {
namespace {

using enum desk::ErrorWord;

constexpr std::int64_t seen_kept_every_ms = 60'000;
constexpr std::int64_t remembered_ms = 1000;  // what is known of persons is asked anew after so long

/// "lab-pc:8110" is "lab-pc", "[::1]:8110" is "[::1]".
std::string host_of(std::string_view header) {
  const std::size_t colon = header.rfind(':');
  const bool has_port = colon != std::string_view::npos && header.find(']', colon) == std::string_view::npos;
  std::string host(header.substr(0, has_port ? colon : header.size()));
  std::transform(host.begin(), host.end(), host.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  if (host.ends_with('.')) host.pop_back();
  return host;
}

[[noreturn]] void refuse(desk::ErrorWord error, const std::string& sentence) {
  throw desk::Failure(error, sentence);
}

}  // namespace

void must_sign_in() {
  throw FailureWith(sign_in_needed, "Sign in first: nobody is signed in on this device, or the session has ended.",
                    {{"sign_in_needed", true}});
}

bool is_loopback(std::string_view address) {
  return address.starts_with("127.") || address == "::1";
}

Gate::Gate(GateWords words)
    : words_(std::move(words)),
      sessions_(words_.times),
      file_(words_.sessions_file, words_.sessions_file.empty() ? "" : desk::which_store(words_.lab)) {
  if (!words_.now_ms) words_.now_ms = [] { return desk::clock_of_machine().now_ms(); };
  const AllKept kept = file_.read();
  sessions_.put_back(kept.sessions, now_ms());
  devices_.put_back(kept.devices, now_ms());
}

Gate::~Gate() {
  keep_sessions();
}

void Gate::keep_sessions() {
  kept_ms_ = now_ms();
  file_.keep([&] {
    const std::lock_guard lock(mutex_);  // of the marks
    return AllKept{sessions_.all(), devices_.all()};
  });
}

std::string Gate::session_cookie() const {
  return fmt::format("heatwork-session-{}", words_.port);
}

std::string Gate::device_cookie() const {
  return fmt::format("heatwork-device-{}", words_.port);
}

void Gate::check_host_and_origin(const Heard& heard) const {
  const auto count =
      std::count_if(heard.headers.begin(), heard.headers.end(), [](const auto& header) { return same_letters(header.first, "Host"); });
  const std::string host = heard.header_or_nothing("Host");
  // Another name that leads here is how a strange page would read what this machine keeps.
  const bool known = words_.hosts.empty() || std::find(words_.hosts.begin(), words_.hosts.end(), host_of(host)) != words_.hosts.end();
  if (count != 1 || !known)
    refuse(not_allowed, "This server does not answer to the name it was asked by; whoever starts it tells it its names.");
  if (!heard.writes()) return;
  const std::string* origin = heard.header("Origin");
  const std::string own = fmt::format("{}://{}", heard.secure ? "https" : "http", host);
  const std::string site = heard.header_or_nothing("Sec-Fetch-Site");
  const bool strange = (origin != nullptr && !same_letters(*origin, own)) || (!site.empty() && site != "same-origin" && site != "none");
  if (strange) refuse(not_allowed, "What changes something must come from the page of this server itself, not from another one.");
}

std::optional<desk::PersonNow> Gate::person_now(const std::string& code) {
  const std::int64_t now = now_ms();
  {
    const std::lock_guard lock(mutex_);
    const auto found = persons_.find(code);
    if (found != persons_.end() && now - found->second.at_ms < remembered_ms) return found->second.person;
  }
  desk::AskedLab lab = words_.lab;
  lab.person = code;
  auto person = desk::person_now(lab, code);
  const std::lock_guard lock(mutex_);
  persons_[code] = {now, person};
  return person;
}

bool Gate::sign_in_needed(const Heard& heard) {
  if (!is_loopback(heard.from)) return true;
  const std::int64_t now = now_ms();
  {
    const std::lock_guard lock(mutex_);
    if (now - asked_for_passwords_ms_ < remembered_ms) return somebody_has_password_;
  }
  const bool somebody = desk::somebody_has_password(words_.lab);
  const std::lock_guard lock(mutex_);
  asked_for_passwords_ms_ = now;
  somebody_has_password_ = somebody;
  return somebody;
}

bool Gate::stands(Session& session) {
  if (session.by == SignedInBy::machine) return true;
  const auto person = person_now(session.person);
  const std::lock_guard lock(mutex_);
  return person && !person->left && person->mark == session.mark;
}

std::shared_ptr<Session> Gate::session_of(const Heard& heard) {
  const std::string id = heard.cookie(session_cookie());
  std::shared_ptr<Session> session = id.empty() ? nullptr : sessions_.find(id, now_ms());
  if (session == nullptr) return nullptr;
  const bool machine = session->by == SignedInBy::machine;
  const bool good = machine ? !sign_in_needed(heard) : stands(*session);
  if (!good) sessions_.end(*session);
  // When somebody was seen last is kept now and then; the end of a session at once.
  if (file_.keeps() && (!good || now_ms() - kept_ms_ > seen_kept_every_ms)) keep_sessions();
  return good ? session : nullptr;
}

bool Gate::password_is_due(const Session& session) const {
  return session.by != SignedInBy::machine && session.password_until_ms <= now_ms();
}

desk::AskedLab Gate::own_lab_of(const Session& session) const {
  desk::AskedLab lab = words_.lab;
  if (session.by == SignedInBy::machine) return lab;
  lab.person = session.person;
  lab.known_by = session.by == SignedInBy::password ? "password" : "PIN";
  lab.password_is_due = password_is_due(session);
  return lab;
}

desk::AskedLab Gate::lab_of(const Session& session) const {
  desk::AskedLab lab = own_lab_of(session);
  if (!session.demo) return lab;
  lab.store = desk::demo_store_of(words_.lab);
  lab.password_is_due = false;  // nothing there is anybody's
  return lab;
}

void Gate::check_token(const Heard& heard, const Session* session) const {
  const std::string* token = heard.header("Heatwork-Token");
  if (session != nullptr && token != nullptr && same_secret(*token, session->token)) return;
  refuse(not_allowed,
         "What changes something must carry the header Heatwork-Token that GET /api/session gives, and the cookie that came with it.");
}

void Gate::check_role(const Session& session, Needs needs) {
  if (needs == Needs::nothing || needs == Needs::sign_in) return;
  const desk::CareAnswer who = desk::who_am_i(lab_of(session));
  const std::string code = *who.json.find("person")->text(), role = *who.json.find("role")->text();
  const bool set_up = *who.json.find("may_set_up")->truth();
  if (needs == Needs::set_up && !set_up)
    refuse(not_allowed, fmt::format("Person \"{}\" may not set up; a person who may set up must do this.", code));
  const bool enough = needs == Needs::set_up || role == "release" || (needs == Needs::fire && role == "fire");
  if (!enough)
    refuse(not_allowed,
           fmt::format("Person \"{}\" may {} but not {}; a person who may {} must do this.", code, role, word(needs), word(needs)));
  if (needs != Needs::fire && !session.demo && password_is_due(session))
    refuse(password_needed, fmt::format("To release or to set up, person \"{}\" must say the password again. Nothing was kept.", code));
}

std::shared_ptr<Session> Gate::let_in(const Heard& heard, const Route& route) {
  std::shared_ptr<Session> session = session_of(heard);
  if (route.needs == Needs::nothing) return session;
  if (session == nullptr && sign_in_needed(heard)) must_sign_in();
  if (heard.writes()) check_token(heard, session.get());
  if (session == nullptr) session = std::make_shared<Session>();
  check_role(*session, route.needs);
  return session;
}

bool Gate::page_is_open(const Heard& heard) {
  return !sign_in_needed(heard) || session_of(heard) != nullptr;
}

Sessions::Begun Gate::begin(SignedInBy by, const desk::PersonNow& person) {
  Sessions::Begun begun = sessions_.begin(by, person.code, now_ms());
  {
    const std::lock_guard lock(mutex_);
    begun.session->mark = person.mark;
    persons_.erase(person.code);
  }
  keep_sessions();
  return begun;
}

Sessions::Begun Gate::begin_of_machine() {
  return sessions_.begin(SignedInBy::machine, "", now_ms());
}

void Gate::raise(Session& session, const desk::PersonNow& person) {
  session.by = SignedInBy::password;
  session.password_until_ms = now_ms() + sessions_.times().password_ms;
  {
    const std::lock_guard lock(mutex_);
    session.mark = person.mark;
  }
  keep_sessions();
}

void Gate::password_changed(const std::string& person, Session* but) {
  sessions_.end_all_of(person, but);
  desk::AskedLab lab = words_.lab;
  lab.person = person;
  const auto now = desk::person_now(lab, person);
  {
    const std::lock_guard lock(mutex_);
    persons_.clear();
    asked_for_passwords_ms_ = 0;
    if (but != nullptr && now && but->person == person) but->mark = now->mark;
  }
  keep_sessions();
}

}  // namespace heatwork::server
