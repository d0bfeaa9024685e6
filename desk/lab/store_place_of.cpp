#include <date/tz.h>
#include <fmt/format.h>
#include <pwd.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <stdexcept>

#include "desk/errors.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {
namespace {

std::string variable(const char* name) {
  const char* found = std::getenv(name);
  return found == nullptr ? "" : found;
}

std::string address_of(const AskedLab& asked) {
  if (!asked.store.empty()) return asked.store;
  if (const std::string named = variable("HEATWORK_STORE"); !named.empty()) return named;
  std::string data = variable("XDG_DATA_HOME");
  if (data.empty()) data = variable("HOME") + "/.local/share";
  return data + "/heatwork/lab.sqlite";
}

std::string login_name() {
  const passwd* entry = ::getpwuid(::geteuid());
  return entry == nullptr ? std::to_string(::geteuid()) : entry->pw_name;
}

std::string zone_of_machine() {
  try {
    return date::current_zone()->name();
  } catch (const std::runtime_error&) {
    return "UTC";
  }
}

std::string now_utc() {
  using std::chrono::milliseconds;
  return date::format("%FT%TZ", date::floor<milliseconds>(std::chrono::system_clock::now()));
}

}  // namespace

StorePlace place_of(const AskedLab& asked) {
  StorePlace place;
  place.address = records::read_address(address_of(asked));
  place.zone = zone_of_machine();
  const bool named = !asked.person.empty();
  place.opening.who = {named ? asked.person : login_name(), named ? "named" : "log-in name", now_utc(), place.zone};
  place.opening.index_of = [](const records::Document& document) -> records::Index {
    throw std::runtime_error(fmt::format("What a {} is found by is not known here.", document.kind));
  };
  return place;
}

records::Store opened_to_set_up(const AskedLab& /*asked*/, const StorePlace& place) {
  return opened(place, Reading::and_writing);
}

}  // namespace heatwork::desk
