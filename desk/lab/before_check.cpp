#include "desk/lab/before_check.h"

#include <fmt/format.h>

#include <utility>

#include "desk/lab/furnace_checks.h"
#include "desk/lab/furnace_in_lab.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"

namespace heatwork::desk {
namespace {

struct Newest {
  std::string check;
  std::int64_t at_ms = 0;
};

/// Newest first until one tells something.
std::optional<Newest> newest_of(records::Store& store, const std::string& furnace) {
  std::optional<Newest> newest;
  walk_checks(store, {furnace}, [&](const CheckRead& read) {
    if (tells_of_furnace(*read.check)) newest = Newest{read.document.id, read.at_ms};
    return !newest;
  });
  return newest;
}

}  // namespace

std::string BeforeCheck::in_words() const {
  return fmt::format("made before the check {} of {}", check, day);
}

std::map<std::string, BeforeCheck> made_before_check(records::Store& store, const std::string& zone,
                                                     const std::vector<trade::Firing>& firings) {
  std::map<std::string, std::optional<Newest>> newest;
  std::vector<std::string> asked;
  for (const trade::Firing& firing : firings) {
    const std::string& furnace = firing.furnace.value;
    if (!newest.contains(furnace)) newest[furnace] = newest_of(store, furnace);
    if (newest[furnace]) asked.push_back(firing.name);
  }
  std::map<std::string, BeforeCheck> marks;
  if (asked.empty()) return marks;
  const auto made = store.kept_at(rehearsal_kind, asked);
  for (const trade::Firing& firing : firings) {
    const auto& check = newest[firing.furnace.value];
    const auto at = made.find(firing.name);
    if (!check || at == made.end() || check->at_ms <= utc_ms(at->second)) continue;
    marks[firing.name] = {check->check, local_day(check->at_ms, zone)};
  }
  return marks;
}

JsonObject as_json(const std::optional<BeforeCheck>& mark) {
  Json check;
  if (mark) check = JsonObject{{"check", mark->check}, {"day", mark->day}};
  return {{"made_before_check", std::move(check)}, {"stale", mark.has_value()}};
}

}  // namespace heatwork::desk
