#include "server/front.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "desk/errors.h"
#include "desk/lab/clock.h"
#include "desk/lab/persons.h"
#include "desk/version.h"
#include "server/answer.h"
#include "server/page_files.h"

namespace heatwork::server {
namespace {

bool same_letters(std::string_view one, std::string_view other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(), [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
  });
}

bool writes(std::string_view method) {
  return method != "GET" && method != "HEAD";
}

std::string header_or_nothing(const Heard& heard, std::string_view name) {
  const std::string* found = heard.header(name);
  return found == nullptr ? "" : *found;
}

/// The first of the two languages that is named.
Language language_of(const Heard& heard) {
  const std::string asked = header_or_nothing(heard, "Accept-Language");
  for (std::size_t start = 0; start < asked.size();) {
    const std::size_t end = std::min(asked.find(',', start), asked.size());
    std::string_view one = std::string_view(asked).substr(start, end - start);
    while (one.starts_with(' ')) one.remove_prefix(1);
    const std::string_view tag = one.substr(0, std::min(one.find_first_of("-; "), one.size()));
    if (same_letters(tag, "de")) return Language::german;
    if (same_letters(tag, "en")) return Language::english;
    start = end + 1;
  }
  return Language::english;
}

report::TemperatureScale units_of(const Heard& heard) {
  const std::string asked = header_or_nothing(heard, "Heatwork-Units");
  if (asked.empty() || asked == "celsius") return report::TemperatureScale::celsius;
  if (asked == "fahrenheit") return report::TemperatureScale::fahrenheit;
  throw desk::Failure(desk::ErrorWord::wrong_use, "The header Heatwork-Units must be celsius or fahrenheit.");
}

std::string cookie(const Heard& heard, std::string_view name) {
  for (const auto& [key, value] : heard.headers) {
    if (!same_letters(key, "Cookie")) continue;
    for (std::size_t start = 0; start < value.size();) {
      const std::size_t end = std::min(value.find(';', start), value.size());
      std::string_view one = std::string_view(value).substr(start, end - start);
      while (one.starts_with(' ')) one.remove_prefix(1);
      if (one.size() > name.size() && one.starts_with(name) && one[name.size()] == '=') return std::string(one.substr(name.size() + 1));
      start = end + 1;
    }
  }
  return "";
}

desk::Json body_of(const Heard& heard, const Route& route) {
  if (route.carries == Carries::bytes || heard.body.empty()) return {};
  const std::string type = header_or_nothing(heard, "Content-Type");
  if (!same_letters(std::string_view(type).substr(0, std::min(type.find(';'), type.size())), "application/json"))
    throw desk::Failure(desk::ErrorWord::wrong_use, "The body must be JSON, and the header Content-Type say application/json.");
  return desk::read_json("body", heard.body);
}

}  // namespace

const std::string* Heard::header(std::string_view name) const {
  const auto found = std::find_if(headers.begin(), headers.end(), [&](const auto& header) { return same_letters(header.first, name); });
  return found == headers.end() ? nullptr : &found->second;
}

std::string_view Heard::path() const {
  return std::string_view(target).substr(0, std::min(target.find('?'), target.size()));
}

const std::vector<std::pair<std::string, std::string>>& headers_of_all() {
  static const std::vector<std::pair<std::string, std::string>> all{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; font-src 'self'; "
       "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Frame-Options", "DENY"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Permissions-Policy", "geolocation=(), microphone=()"},
  };
  return all;
}

Front::Front(FrontWords words, std::vector<Route> routes) : words_(std::move(words)), router_(std::move(routes)) {}

const Route* Front::route_of(const Heard& heard) const {
  return router_.find(heard.method, heard.path()).route;
}

std::string Front::name_for_log(const Heard& heard) const {
  if (const Route* route = route_of(heard)) return std::string(route->id);
  return is_of_page(heard.path()) ? "page" : "none";
}

std::string Front::cookie_name() const {
  return fmt::format("heatwork-session-{}", words_.port);
}

Answer Front::with_cookie(Answer answer, const Sessions::Begun& begun, bool secure) const {
  answer.headers.emplace_back("Set-Cookie",
                              fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict{}", cookie_name(), begun.id, secure ? "; Secure" : ""));
  return answer;
}

desk::AskedLab Front::lab_of(const Session& session) const {
  desk::AskedLab lab = words_.lab;
  if (!session.person.empty()) lab.person = session.person;
  return lab;
}

std::shared_ptr<Session> Front::session_of(const Heard& heard) {
  const std::string id = cookie(heard, cookie_name());
  return id.empty() ? nullptr : sessions_.find(id, desk::clock_of_machine().now_ms());
}

Answer Front::state_of(const Session& session) const {
  desk::JsonObject state{{"format", 1}, {"signed_in", session.by != SignedInBy::machine}, {"sign_in_needed", false}};
  const desk::CareAnswer who = desk::who_am_i(lab_of(session));
  for (const std::string_view key : {"person", "known_by", "entered", "role", "may_set_up"})
    state.push_back({std::string(key), *who.json.find(key)});
  state.push_back({"by", "this machine"});
  state.push_back({"token", session.token});
  state.push_back({"password_until", nullptr});
  state.push_back({"lab", desk::JsonObject{{"kept", false}, {"name", ""}, {"language", ""}, {"units", ""}, {"demo", false}}});
  state.push_back({"demo", session.demo.load()});
  state.push_back({"version", desk::program_version()});
  state.push_back({"page_language", nullptr});
  return answer_of(desk::Json(std::move(state)));
}

Answer Front::session_state(const Heard& heard) {
  if (const auto session = session_of(heard)) return state_of(*session);
  const Sessions::Begun begun = sessions_.begin(SignedInBy::machine, "", desk::clock_of_machine().now_ms());
  return with_cookie(state_of(*begun.session), begun, heard.secure);
}

Answer Front::routed(const Heard& heard, const Router::Found& found) {
  const Route& route = *found.route;
  if (route.id == "session") return session_state(heard);
  const auto query = decoded_query(heard.path().size() < heard.target.size() ? heard.target.substr(heard.path().size() + 1) : "");
  if (!query) throw desk::Failure(desk::ErrorWord::wrong_use, "What follows the \"?\" of the address cannot be read.");
  std::shared_ptr<Session> session = session_of(heard);
  if (writes(heard.method)) {
    const std::string* token = heard.header("Heatwork-Token");
    if (session == nullptr || token == nullptr || !same_secret(*token, session->token))
      throw desk::Failure(desk::ErrorWord::not_allowed,
                          "What changes something must carry the header Heatwork-Token that GET /api/session gives, and its cookie.");
  }
  if (session == nullptr) session = std::make_shared<Session>();
  Asked asked;
  asked.lab = lab_of(*session);
  asked.path = found.values;
  asked.query = *query;
  asked.body = body_of(heard, route);
  asked.raw = heard.body;
  asked.content_type = header_or_nothing(heard, "Content-Type");
  asked.language = language_of(heard);
  asked.units = units_of(heard);
  asked.session = session.get();
  Answer answer = route.answer(asked);
  if (answer.events)  // the session stays as long as the line is open
    answer.events = [session, inner = std::move(answer.events)](OpenLine& line) { inner(line); };
  return answer;
}

Answer Front::answer_or_throw(const Heard& heard) {
  if (is_of_page(heard.path()) && !writes(heard.method))
    return page_answer(heard.path(), header_or_nothing(heard, "Accept-Encoding"), header_or_nothing(heard, "If-None-Match"));
  const Router::Found found = router_.find(heard.method, heard.path());
  if (found.route != nullptr) return routed(heard, found);
  if (found.other.empty())
    throw desk::Failure(desk::ErrorWord::unknown_name, "There is no such address; GET /api/openapi.json tells those there are.");
  Answer answer = refusal(desk::ErrorWord::wrong_use,
                          fmt::format("This address knows no {}; it knows {}.", heard.method, fmt::join(found.other, ", ")), 405);
  answer.headers.emplace_back("Allow", fmt::format("{}", fmt::join(found.other, ", ")));
  return answer;
}

Answer Front::answer(const Heard& heard) {
  try {
    return answer_or_throw(heard);
  } catch (...) {
    return answer_of(std::current_exception());
  }
}

}  // namespace heatwork::server
