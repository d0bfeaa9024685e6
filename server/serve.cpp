#include "server/serve.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/clock.h"
#include "desk/lab/settings.h"
#include "desk/lab/sign_in.h"
#include "desk/version.h"
#include "server/answer.h"
#include "server/certificate.h"
#include "server/connections.h"
#include "server/front.h"
#include "server/routes/routes.h"
#include "server/session_file.h"

namespace heatwork::server {
namespace {

std::string now_text() {
  return desk::exact_utc_text(desk::clock_of_machine().now_ms());
}

std::string log_line(const Told& told) {
  return fmt::format(
      "{{\"at\": \"{}\", \"event\": \"answer\", \"method\": \"{}\", \"route\": \"{}\", \"status\": {}, \"ms\": {:.1f}, \"bytes\": {}}}\n",
      now_text(), told.method, told.route, told.status, told.milliseconds, told.bytes);
}

std::string event_line(std::string_view event) {
  return fmt::format("{{\"at\": \"{}\", \"event\": \"{}\", \"version\": \"{}\"}}\n", now_text(), event, desk::program_version());
}

bool reaches_others(const std::vector<std::string>& addresses) {
  return std::any_of(addresses.begin(), addresses.end(), [](const std::string& address) { return !is_loopback(address); });
}

void must_be_safe(const ServeWords& words) {
  if (words.certificate.empty() != words.key.empty())
    throw desk::Failure(desk::ErrorWord::wrong_use, "--certificate and --key are given together or not at all.");
  if (!reaches_others(words.listen) || desk::somebody_has_password(words.lab)) return;
  throw desk::Failure(
      desk::ErrorWord::not_allowed,
      "Other machines are let in only where persons sign in, and nobody has a password yet: \"heatwork person add CODE --role "
      "ROLE\" enters one, \"heatwork person password CODE\" gives a password; then start again.");
}

/// The store made where none stands, or brought to this format, and what is to be said of it: whoever opens the page first begins with an
/// empty lab, not with an error. A server of PostgreSQL that is away now may be back when somebody asks.
std::string ready_store_at_start(const desk::AskedLab& lab) {
  try {
    return desk::ready_store(lab).text;
  } catch (const std::exception&) {
    const desk::Shown why = desk::explain(std::current_exception());
    if (why.error != desk::ErrorWord::store_unreachable && why.error != desk::ErrorWord::store_locked) throw;
    return why.sentence + "\n";
  }
}

std::string in_address(const std::string& host) {
  return host.find(':') == std::string::npos ? host : "[" + host + "]";
}

std::vector<std::string> hosts_of(const std::vector<std::string>& names) {
  std::vector<std::string> hosts;
  for (const std::string& name : names) hosts.push_back(in_address(name));
  return hosts;
}

std::string where(const ServeWords& words, const std::vector<std::string>& addresses, int port, bool tls) {
  std::string host = addresses.front();
  if (!words.names.empty()) host = words.names.front();
  if (host == "0.0.0.0" || host == "::") host = "localhost";
  return fmt::format("Heatwork is at {}://{}:{}/ {}; Ctrl-C ends it.\n", tls ? "https" : "http", in_address(host), port,
                     reaches_others(addresses) ? "for this network" : "for this machine alone");
}

std::string told_of(const Certificate& certificate) {
  return fmt::format("Certificate{} in {}, good until {}; a browser that asks shows this SHA-256 fingerprint:\n  {}\n",
                     certificate.made_now ? " made" : "", certificate.file, certificate.until, certificate.fingerprint);
}

}  // namespace

void serve(const ServeWords& words, const ServeHooks& hooks) {
  must_be_safe(words);
  const std::vector<std::string> addresses = words.listen.empty() ? std::vector<std::string>{"127.0.0.1"} : words.listen;
  std::vector<std::string> names = names_of_machine();
  for (const std::string& name : words.names) names.push_back(name);
  for (const std::string& address : addresses) {
    if (address != "0.0.0.0" && address != "::" && std::find(names.begin(), names.end(), address) == names.end()) names.push_back(address);
  }
  const bool tls = words.tls || !words.certificate.empty() || reaches_others(addresses);
  Connections connections(addresses, words.port, Limits{});
  if (tls) {
    const Certificate certificate = words.certificate.empty() ? own_certificate(desk::data_folder(desk::variables_of_process()), names)
                                                              : given_certificate(words.certificate, words.key);
    connections.secure(certificate.file, certificate.key_file);
    hooks.note(told_of(certificate));
  }
  GateWords gate;
  gate.lab = words.lab;
  gate.hosts = hosts_of(names);
  gate.port = connections.port();
  gate.sessions_file = session_file_of(desk::data_folder(desk::variables_of_process()), words.port);
  Front front(std::move(gate), all_routes());
  if (const std::string said = ready_store_at_start(words.lab); !said.empty()) hooks.note(said);
  hooks.log(event_line("started"));
  hooks.ready(where(words, addresses, connections.port(), tls));
  connections.serve(front, hooks.stop, [&](const Told& told) { hooks.log(log_line(told)); });
  hooks.log(event_line("stopped"));
}

desk::CareAnswer routes_table() {
  desk::CareAnswer answer;
  desk::JsonList rows;
  const Router router(all_routes());
  for (const Route& route : router.routes()) {
    answer.text += fmt::format("{:<7}{:<48} {:<24} {}\n", route.method, route.path, route.id, word(route.needs));
    rows.push_back(desk::JsonObject{{"method", route.method},
                                    {"path", route.path},
                                    {"id", route.id},
                                    {"needs", word(route.needs)},
                                    {"carries", route.carries == Carries::json ? "json" : "bytes"}});
  }
  answer.json = desk::JsonObject{{"format", 1}, {"routes", std::move(rows)}};
  return answer;
}

}  // namespace heatwork::server
