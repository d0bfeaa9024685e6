#include "server/front.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>

#include "desk/errors.h"
#include "server/answer.h"
#include "server/page_files.h"

namespace heatwork::server {
namespace {

using enum desk::ErrorWord;

constexpr int most_open_lines = 128;

/// The first of the two languages that is named.
Language language_of(const Heard& heard) {
  const std::string asked = heard.header_or_nothing("Accept-Language");
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
  const std::string asked = heard.header_or_nothing("Heatwork-Units");
  if (asked.empty() || asked == "celsius") return report::TemperatureScale::celsius;
  if (asked == "fahrenheit") return report::TemperatureScale::fahrenheit;
  throw desk::Failure(wrong_use, "The header Heatwork-Units must be celsius or fahrenheit.");
}

/// Of what is refused: a header that says neither is itself what is wrong.
report::TemperatureScale units_or_celsius(const Heard& heard) {
  const bool fahrenheit = heard.header_or_nothing("Heatwork-Units") == "fahrenheit";
  return fahrenheit ? report::TemperatureScale::fahrenheit : report::TemperatureScale::celsius;
}

desk::Json body_of(const Heard& heard, const Route& route) {
  if (route.carries == Carries::bytes || heard.body.empty()) return {};
  const std::string type = heard.header_or_nothing("Content-Type");
  if (!same_letters(std::string_view(type).substr(0, std::min(type.find(';'), type.size())), "application/json"))
    throw desk::Failure(wrong_use, "The body must be JSON, and the header Content-Type say application/json.");
  return desk::read_json("body", heard.body);
}

Values query_of(const Heard& heard) {
  auto query = decoded_query(heard.query());
  if (!query)
    throw desk::Failure(wrong_use,
                        "What follows the \"?\" of the address cannot be read: names once each, percent signs with two digits, UTF-8.");
  return std::move(*query);
}

/// The page to sign in, and what it needs.
bool is_for_signing_in(std::string_view path) {
  return path == "/sign-in" || path.starts_with("/sign-in/");
}

/// "?to=%2Ffiring%2Fcrown-16": the screen that was asked for, to go on to once somebody signed in; nothing for files and for the first
/// page.
std::string wanted_after(const Heard& heard) {
  constexpr std::size_t longest = 500;
  const std::string_view path = heard.path();
  const bool is_screen = path.size() > 1 && path.find('.') == std::string_view::npos && path[1] != '/' && path[1] != '\\';
  if (!is_screen || heard.target.size() > longest) return {};
  std::string said = "?to=";
  for (const char letter : heard.target) {
    const auto byte = static_cast<unsigned char>(letter);
    const bool plain = std::isalnum(byte) != 0 || letter == '-' || letter == '_';
    said += plain ? std::string(1, letter) : fmt::format("%{:02X}", byte);
  }
  return said;
}

Answer sent_to_sign_in(const Heard& heard) {
  Answer answer;
  answer.status = 303;
  answer.type = "text/plain; charset=utf-8";
  answer.body = "Sign in first.\n";
  answer.headers = {{"Location", "/sign-in/" + wanted_after(heard)}};
  return answer;
}

Answer unknown_method(const std::vector<std::string_view>& known) {
  Answer answer = refusal(wrong_use, fmt::format("This address is asked by {}, and by nothing else.", fmt::join(known, ", ")), 405);
  answer.headers.emplace_back("Allow", fmt::format("{}", fmt::join(known, ", ")));
  return answer;
}

}  // namespace

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

Front::Front(GateWords words, std::vector<Route> routes) : gate_(std::move(words)), sessions_(gate_), router_(std::move(routes)) {}

const Route* Front::route_of(const Heard& heard) const {
  return router_.find(heard.method, heard.path()).route;
}

std::string Front::name_for_log(const Heard& heard) const {
  if (const Route* route = route_of(heard)) return std::string(route->id);
  return is_of_page(heard.path()) ? "page" : "none";
}

Answer Front::page(const Heard& heard) {
  if (!is_for_signing_in(heard.path()) && !gate_.page_is_open(heard)) return sent_to_sign_in(heard);
  return page_answer(heard.path(), heard.header_or_nothing("Accept-Encoding"), heard.header_or_nothing("If-None-Match"));
}

Answer Front::routed(const Heard& heard, const Router::Found& found) {
  const Route& route = *found.route;
  const std::shared_ptr<Session> session = gate_.let_in(heard, route);
  Asked asked;
  asked.lab = session == nullptr ? gate_.words().lab : gate_.lab_of(*session);
  asked.path = found.values;
  asked.query = query_of(heard);
  asked.body = body_of(heard, route);
  asked.raw = heard.body;
  asked.content_type = heard.header_or_nothing("Content-Type");
  asked.language = language_of(heard);
  asked.units = units_of(heard);
  asked.session = session.get();
  Answer answer = SessionWork::answers(route.id) ? sessions_.answer(route.id, heard, asked, session) : route.answer(asked);
  // So that a page learns with any answer that it is not where it thinks: a session may have ended, and the demo lab with it.
  answer.headers.emplace_back("Heatwork-Lab", session != nullptr && session->demo ? "demo" : "lab");
  if (answer.events) answer.events = held(std::move(answer.events), session);
  return answer;
}

std::function<void(OpenLine&)> Front::held(std::function<void(OpenLine&)> events, std::shared_ptr<Session> session) {
  if (*open_lines_ >= most_open_lines) throw desk::Failure(busy, "Too many pages listen already; try again in some seconds.");
  // Counted from now on, whether the line is ever opened or not, until the answer goes; the session stays as long.
  ++*open_lines_;
  const std::shared_ptr<void> counted(nullptr, [count = open_lines_](void*) { --*count; });
  return [counted, session = std::move(session), inner = std::move(events)](OpenLine& line) { inner(line); };
}

Answer Front::answer_or_throw(const Heard& heard) {
  gate_.check_host_and_origin(heard);
  if (is_of_page(heard.path()) && !heard.writes()) return page(heard);
  const Router::Found found = router_.find(heard.method, heard.path());
  if (found.route != nullptr) return routed(heard, found);
  // Which addresses there are is told only to those who are let in.
  if (gate_.sign_in_needed(heard) && gate_.session_of(heard) == nullptr) must_sign_in();
  if (!found.other.empty()) return unknown_method(found.other);
  throw desk::Failure(unknown_name, "There is no such address; GET /api/openapi.json tells those there are.");
}

Answer Front::answer(const Heard& heard) {
  try {
    return answer_or_throw(heard);
  } catch (...) {
    return answer_of(std::current_exception(), language_of(heard), units_or_celsius(heard));
  }
}

}  // namespace heatwork::server
