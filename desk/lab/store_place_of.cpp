#include <fmt/format.h>
#include <pwd.h>
#include <unistd.h>

#include <optional>

#include "desk/lab/clock.h"
#include "desk/lab/index_of.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/roles.h"
#include "desk/lab/settings.h"
#include "desk/lab/store_place.h"
#include "trade/records.h"

namespace heatwork::desk {
namespace {

std::string login_name() {
  const passwd* entry = ::getpwuid(::geteuid());
  return entry == nullptr ? std::to_string(::geteuid()) : entry->pw_name;
}

records::Who who_asks(const AskedLab& asked, const Settings& settings, const std::string& zone) {
  const std::string now = exact_utc_text(clock_of_machine().now_ms());
  if (!asked.person.empty()) return {asked.person, asked.known_by.empty() ? "named" : asked.known_by, now, zone};
  if (!settings.person.empty()) return {settings.person, "setting", now, zone};
  return {login_name(), "log-in name", now, zone};
}

Asker::Entered entered_of(const records::Document& document) {
  const auto person = read_kept<trade::Person>(trade::source_of("person " + document.id, document.body));
  return {person.role.value, person.may_set_up.value, person.left};
}

}  // namespace

StorePlace place_of(const AskedLab& asked) {
  const Variables variables = variables_of_process();
  const Settings settings = settings_of(variables);
  StorePlace place;
  place.address = records::read_address(store_address(asked.store, settings, variables));
  place.nobody_named_it = asked.store.empty() && settings.store.empty() && variables("HEATWORK_STORE").empty();
  place.password_is_due = asked.password_is_due;
  place.zone = zone_of_lab(settings, variables).name;
  place.backups = settings.backups;
  place.backups_every = settings.backups_every;
  place.backups_kept = settings.backups_kept;
  place.opening.who = who_asks(asked, settings, place.zone);
  place.opening.copies_folder = settings.backups;
  place.opening.index_of = index_of;
  return place;
}

Asker asker_of(const StorePlace& place, records::Store& store) {
  Asker asker{place.opening.who.person, place.opening.who.known_by, false, std::nullopt, place.password_is_due};
  records::HeadQuery persons;
  persons.kind = "person";
  asker.nobody_entered = store.heads(persons).count == 0;
  if (const auto entered = store.find("person", asker.code)) asker.entered = entered_of(*entered);
  return asker;
}

records::Store opened_to_set_up(const StorePlace& place) {
  records::Store store = opened(place, Reading::and_writing);
  needs_set_up(asker_of(place, store));
  return store;
}

}  // namespace heatwork::desk
