// Altered requests at the front of the server, past HTTP: path, headers and body. Each is answered with a status and JSON or a file, never
// a crash, and a mistake of ours is one. Counts how many came past the router to the work of a route, and says so at the end.
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "desk/errors.h"
#include "desk/json_value.h"
#include "desk/lab/store_care.h"
#include "server/front.h"
#include "server/routes/routes.h"
#include "trade/utf8.h"

namespace {

using namespace heatwork;
using namespace heatwork::server;

// A password takes a tenth of a second on purpose, a demo lab some seconds: both are asked from outside.
constexpr std::array<std::string_view, 6> slow_on_purpose{"sign_in",  "say_password", "keep_password",
                                                          "keep_pin", "play_in_demo", "make_demo_lab"};
constexpr long store_lasts = 2000;  // requests, then it is made anew: what was kept slows those that come

long asked = 0, past_router = 0, answered_well = 0;

std::vector<Route> counted_routes() {
  std::vector<Route> routes = all_routes();
  for (Route& route : routes) {
    if (std::find(slow_on_purpose.begin(), slow_on_purpose.end(), route.id) != slow_on_purpose.end()) {
      route.answer = [](const Asked&) {
        ++past_router;
        return Answer{};
      };
      continue;
    }
    route.answer = [work = route.answer](const Asked& request) {
      ++past_router;
      return work(request);
    };
  }
  // What sessions answer, the front answers by these names.
  std::erase_if(routes, [](const Route& route) {
    return SessionWork::answers(route.id) && std::find(slow_on_purpose.begin(), slow_on_purpose.end(), route.id) != slow_on_purpose.end();
  });
  return routes;
}

/// A store of its own in memory where there is such a folder, and nothing of whoever runs it.
std::string own_folder() {
  const std::string under = std::filesystem::exists("/dev/shm") ? "/dev/shm" : std::filesystem::temp_directory_path().string();
  std::string folder = under + "/heatwork-request-fuzz-" + std::to_string(::getpid());
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  for (const char* name : {"HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME"}) ::setenv(name, folder.c_str(), 1);
  ::setenv("HEATWORK_STORE", (folder + "/lab.sqlite").c_str(), 1);
  return folder;
}

struct Lab {
  std::string folder = own_folder();
  Front front{GateWords{{"", "fuzz"}, {"localhost"}, 1}, counted_routes()};
  std::string token, cookie;

  Lab() { make_store(); }
  ~Lab() {
    std::fprintf(stderr, "%ld requests, %ld of them (%.1f %%) past the router to the work of a route, %ld answered 2xx\n", asked,
                 past_router, asked == 0 ? 0.0 : 100.0 * static_cast<double>(past_router) / static_cast<double>(asked), answered_well);
    std::filesystem::remove_all(folder);
  }
  void make_store() {
    for (const char* ending : {"", "-wal", "-shm"}) std::filesystem::remove(folder + "/lab.sqlite" + ending);
    desk::make_store({"", "fuzz"});
  }
  void begin_session() {
    const Answer answer = front.answer({"GET", "/api/session", {{"Host", "localhost"}}, "", "127.0.0.1", false});
    token = *desk::read_json("session", answer.body).find("token")->text();
    for (const auto& [name, value] : answer.headers) {
      if (name == "Set-Cookie") cookie = value.substr(0, value.find(';'));
    }
  }
};

Lab& lab() {
  static Lab one;
  return one;
}

std::string_view line_of(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return line;
}

/// A path that fits the template, its places filled from what was asked.
std::string fitted_path(const Route& route, std::string_view asked_path) {
  std::string path;
  std::string_view left = route.path;
  while (!left.empty()) {
    const std::size_t open = std::min(left.find('{'), left.size());
    path += left.substr(0, open);
    left.remove_prefix(open);
    if (left.empty()) break;
    left.remove_prefix(std::min(left.find('}') + 1, left.size()));
    const std::size_t slash = asked_path.rfind('/');
    const std::string_view part = asked_path.substr(slash == std::string_view::npos ? 0 : slash + 1);
    path += part.empty() ? "x" : std::string(part);
    asked_path = asked_path.substr(0, slash == std::string_view::npos ? 0 : slash);
  }
  return path;
}

bool is_json(const std::string& text) {
  try {
    return !desk::read_json("body", text).is_null();
  } catch (const desk::Failure&) {
    return false;
  }
}

/// An object of keys that routes know, its values cut from bytes that are no JSON.
std::string as_object(const std::string& bytes) {
  constexpr std::array<const char*, 16> keys{"name", "set",  "reason", "from", "code", "role",   "text",   "unset",
                                             "at",   "work", "pieces", "note", "edit", "firing", "locked", "left"};
  desk::JsonObject object;
  for (std::size_t start = 0, number = 0; start < bytes.size() && number < keys.size(); ++number) {
    const std::size_t end = std::min(bytes.find_first_of(",\n", start), bytes.size());
    std::string value = bytes.substr(start, end - start);
    if (trade::first_wrong_byte(value) != std::string_view::npos) value = "ä";
    const char* key = keys.at((value.size() + number) % keys.size());
    const bool there = std::any_of(object.begin(), object.end(), [&](const auto& member) { return member.key == key; });
    if (!there) object.push_back({key, value.size() % 5 == 0 ? desk::Json(desk::JsonObject{{"mass", value}}) : desk::Json(value)});
    start = end + 1;
  }
  return desk::write_json(object);
}

Heard heard_of(std::string_view text, std::size_t size) {
  std::string_view first = line_of(text);
  const std::size_t space = std::min(first.find(' '), first.size());
  Heard heard;
  heard.method = first.substr(0, space);
  heard.target = first.substr(std::min(space + 1, first.size()));
  heard.from = "127.0.0.1";
  for (std::string_view line = line_of(text); !line.empty(); line = line_of(text)) {
    const std::size_t colon = std::min(line.find(": "), line.size());
    heard.headers.emplace_back(line.substr(0, colon), line.substr(std::min(colon + 2, line.size())));
  }
  heard.body = text;
  // Of paths that lead nowhere most are led to a route: there the work is.
  if (lab().front.route_of(heard) == nullptr && size % 16 != 0) {
    const auto& routes = lab().front.router().routes();
    const Route& led_to = routes[std::hash<std::string>{}(heard.target) % routes.size()];
    heard.method = led_to.method;
    const std::string query(heard.query());
    heard.target = fitted_path(led_to, heard.path()) + (query.empty() ? "" : "?" + query);
  }
  const Route* route = lab().front.route_of(heard);
  if (route != nullptr && heard.writes() && route->carries == Carries::json && size % 16 != 1 && !is_json(heard.body))
    heard.body = as_object(heard.body);
  if (heard.header("Host") == nullptr) heard.headers.emplace_back("Host", "localhost");
  if (heard.header("Cookie") == nullptr) heard.headers.emplace_back("Cookie", lab().cookie);
  if (heard.header("Heatwork-Token") == nullptr && size % 32 != 1) heard.headers.emplace_back("Heatwork-Token", lab().token);
  if (heard.header("Content-Type") == nullptr) heard.headers.emplace_back("Content-Type", "application/json");
  return heard;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  if (asked++ % store_lasts == 0) {
    lab().make_store();
    lab().begin_session();
  }
  const Heard heard = heard_of({reinterpret_cast<const char*>(bytes), size}, size);
  const Answer answer = lab().front.answer(heard);
  if (answer.status < 200 || answer.status > 599) std::abort();
  answered_well += answer.status < 300;
  const std::string route = lab().front.name_for_log(heard);
  if (answer.status < 300 && (route == "sign_out" || route == "add_person" || route == "change_person")) {
    // Signed out, or roles are in force: all that follows would be refused before it is looked at.
    lab().make_store();
    lab().begin_session();
  }
  if (answer.type != "application/json" || answer.events || answer.body.empty()) return 0;
  const desk::Json said = desk::read_json("answer", answer.body);
  if (said.find("format") == nullptr && route != "description") {  // that one has a form of its own
    std::fprintf(stderr, "without format: %s %s: %d %s\n", heard.method.c_str(), heard.target.c_str(), answer.status, answer.body.c_str());
    std::abort();
  }
  const desk::Json* error = said.find("error");
  if (error != nullptr && (*error->text() == "mistake_of_ours" || said.find("sentence")->text()->empty())) {
    std::fprintf(stderr, "%s %s\n%s\n", heard.method.c_str(), heard.target.c_str(), answer.body.c_str());
    std::abort();
  }
  return 0;
}
