#include <fmt/format.h>
#include <pwd.h>
#include <unistd.h>

#include <stdexcept>

#include "desk/lab/clock.h"
#include "desk/lab/settings.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {
namespace {

std::string login_name() {
  const passwd* entry = ::getpwuid(::geteuid());
  return entry == nullptr ? std::to_string(::geteuid()) : entry->pw_name;
}

records::Who who_asks(const AskedLab& asked, const Settings& settings, const std::string& zone) {
  const std::string now = exact_utc_text(clock_of_machine().now_ms());
  if (!asked.person.empty()) return {asked.person, "named", now, zone};
  if (!settings.person.empty()) return {settings.person, "setting", now, zone};
  return {login_name(), "log-in name", now, zone};
}

}  // namespace

StorePlace place_of(const AskedLab& asked) {
  const Variables variables = variables_of_process();
  const Settings settings = settings_of(variables);
  StorePlace place;
  place.address = records::read_address(store_address(asked.store, settings, variables));
  place.zone = zone_of_lab(settings, variables).name;
  place.backups = settings.backups;
  place.backups_every = settings.backups_every;
  place.backups_kept = settings.backups_kept;
  place.opening.who = who_asks(asked, settings, place.zone);
  place.opening.copies_folder = settings.backups;
  place.opening.index_of = [](const records::Document& document) -> records::Index {
    throw std::runtime_error(fmt::format("What a {} is found by is not known here.", document.kind));
  };
  return place;
}

records::Store opened_to_set_up(const AskedLab& /*asked*/, const StorePlace& place) {
  return opened(place, Reading::and_writing);
}

}  // namespace heatwork::desk
