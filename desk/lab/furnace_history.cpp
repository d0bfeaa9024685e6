#include "desk/lab/furnace_history.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/lab/furnace_checks.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "quantity/write.h"
#include "records/firings.h"
#include "trade/firing.h"

namespace heatwork::desk {
namespace {

using furnace_care::FurnaceHistory;
using furnace_care::Reopened;
using furnace_care::Reopening;
using furnace_care::SetBy;
using furnace_care::Upkeep;
using furnace_care::UpkeepDone;
using furnace_care::UpkeepInterval;
using trade::CheckOf;
using trade::StageOfWork;

constexpr std::int64_t ms_per_day = 86'400'000;
// A year of firings decides intervals; the newest of them are read whole for stages, times and the air of the room.
constexpr int looked_back_days = 400;
constexpr std::int64_t most_pieces = 6000;
constexpr std::size_t firings_read = 60;

int day_in(const StorePlace& place, std::int64_t at_ms) {
  return furnace_care::day_number(local_day(at_ms, place.zone)).value_or(0);
}

/// The later of the two stays.
void done_then(FurnaceHistory& history, Upkeep work, int day, const std::string& by) {
  const auto found = history.done.find(work);
  if (found == history.done.end() || found->second.day <= day) history.done[work] = {day, by};
}

/// Its verdict is words with commas between them: of the chamber, the pump, the lowest pressure.
bool found_water(const trade::Check& check) {
  const std::string words = fmt::format(", {},", check.verdict);
  return words.find(", water,") != std::string::npos || words.find(", wet pump,") != std::string::npos;
}

void take_check(FurnaceKept& out, const trade::Check& check, int day) {
  FurnaceHistory& history = out.history;
  const std::string by = fmt::format("check {}", check.name);
  for (const Upkeep work : works_of(check.of.value)) {
    done_then(history, work, day, by);
    // The newest check of a work alone says when the next is due.
    history.next_by_check.erase(work);
    if (const auto next = furnace_care::day_number(check.next); next && work != Upkeep::weekly_look)
      history.next_by_check[work] = {*next, check.name};
  }
  if (check.of.value == CheckOf::vacuum) history.water_found_by = found_water(check) ? check.name : "";
  if (check.of.value == CheckOf::temperature && check.wire && (!check.wire->metal || check.wire->metal->value == trade::TestWire::silver))
    history.silver = UpkeepDone{day, by};
  if (!check.after_repair.empty()) out.reopenings.push_back({furnace_care::reopened_by(check.after_repair), day, check.after_repair, by});
}

/// From one version of the furnace's file to the next: what of it asks for a requalification.
void take_change(FurnaceKept& out, const trade::Furnace& before, const trade::Furnace& now, int day, int version) {
  const std::string by = fmt::format("furnace {}@{}", now.name, version);
  const auto changed = [&](Reopened what, std::string words) { out.reopenings.push_back({what, day, std::move(words), by}); };
  if (before.sensor_type != now.sensor_type)
    changed(Reopened::sensor, fmt::format("a sensor of type {}, was {}", now.sensor_type, before.sensor_type));
  if (before.chamber_volume.value != now.chamber_volume.value)
    changed(Reopened::muffle, fmt::format("a chamber of {}, was {}", quantity::write(now.chamber_volume.value),
                                          quantity::write(before.chamber_volume.value)));
  if (before.altitude.value != now.altitude.value)
    changed(Reopened::place, fmt::format("a place at {:g} m, was {:g} m", now.altitude.value.si(), before.altitude.value.si()));
  if (before.heating.nominal_mains.value != now.heating.nominal_mains.value)
    changed(Reopened::mains, fmt::format("mains of {}, was {}", quantity::write(now.heating.nominal_mains.value),
                                         quantity::write(before.heating.nominal_mains.value)));
}

std::string kept_on(records::Store& store, const std::string& furnace, int version) {
  records::EntryQuery query;
  query.kind = trade::word(trade::Noun::furnace);
  query.id = furnace;
  for (int number = 1;; ++number) {
    const auto page = store.trail(query, number);
    for (const records::Entry& entry : page.rows)
      if (entry.version == version) return entry.who.at_utc;
    if (page.rows.size() < records::rows_a_page) return "";
  }
}

void take_furnace(FurnaceKept& out, records::Store& store, const StorePlace& place, const std::string& name) {
  const auto versions = store.versions(trade::word(trade::Noun::furnace), name);
  if (versions.empty()) static_cast<void>(newest_document(store, trade::Noun::furnace, name));
  std::optional<trade::Furnace> before;
  for (const records::Document& document : versions) {
    auto furnace = read_kept<trade::Furnace>(kept_source(document));
    const auto day = [&] {
      const std::string at = kept_on(store, name, document.version);
      return at.empty() ? 0 : day_in(place, utc_ms(at));
    };
    if (!before) {
      out.reopenings.push_back(
          {Reopened::put_into_service, day(), "put into service", fmt::format("furnace {}@{}", name, document.version)});
    } else {
      const std::size_t stood = out.reopenings.size();
      take_change(out, *before, furnace, 0, document.version);
      for (std::size_t i = stood; i < out.reopenings.size(); ++i) out.reopenings[i].day = day();
    }
    before = std::move(furnace);
    out.version = document.version;
  }
  out.furnace = std::move(*before);
}

bool came_out_well(const trade::FiringRecord& record) {
  return !record.results.empty() && std::all_of(record.results.begin(), record.results.end(), [](const trade::PieceFired& fired) {
    return fired.outcome.value == trade::PieceOutcome::as_wanted;
  });
}

void take_firing(FurnaceKept& out, const StorePlace& place, const trade::Firing& firing, double& hours, int& timed) {
  if (!firing.record || firing.record->started.empty()) return;
  const trade::FiringRecord& record = *firing.record;
  const int day = day_in(place, utc_ms(record.started));
  const std::string by = fmt::format("firing {}", firing.name);
  FurnaceHistory& history = out.history;
  if (!record.ended.empty()) {
    hours += static_cast<double>(utc_ms(record.ended) - utc_ms(record.started)) / 3.6e6;
    ++timed;
    if (firing.stage.value == StageOfWork::cleaning) done_then(history, Upkeep::cleaning_firing, day, by);
    if (firing.stage.value == StageOfWork::dry_out) done_then(history, Upkeep::dry_out, day, by);
    if (firing.stage.value == StageOfWork::specimen && !record.results.empty())
      out.specimens.push_back({firing.name, day, came_out_well(record)});
  }
  // Solders hold silver, and a firing may itself say what dirtied the chamber.
  if (firing.stage.value == StageOfWork::solder && (!history.silver || history.silver->day <= day)) history.silver = UpkeepDone{day, by};
}

void take_firings(FurnaceKept& out, records::Store& store, const StorePlace& place, std::int64_t now_ms) {
  const auto rows = records::firings_in(store, out.furnace.name, now_ms - looked_back_days * ms_per_day, most_pieces);
  std::vector<std::string> names;
  for (const records::FiringRow& row : rows) {
    out.history.firing_days.push_back(day_in(place, row.at_ms));
    if (names.size() < firings_read) names.push_back(row.id);
  }
  std::vector<trade::Firing> firings;
  for (const records::Document& document : store.newest(trade::word(trade::Noun::firing), names))
    firings.push_back(read_kept<trade::Firing>(kept_source(document)));
  std::sort(firings.begin(), firings.end(), [](const trade::Firing& one, const trade::Firing& other) {
    const auto at = [](const trade::Firing& firing) { return firing.record ? firing.record->started : std::string(); };
    return std::pair(at(one), one.name) < std::pair(at(other), other.name);
  });
  double hours = 0;
  int timed = 0;
  for (const trade::Firing& firing : firings) take_firing(out, place, firing, hours, timed);
  if (timed > 0 && hours > 0) out.history.hours_a_firing = hours / timed;
  if (!firings.empty()) out.history.room_humidity_percent = 100 * firings.back().chamber.room_humidity.value.si();
}

/// What a file marks as done by hand; a muffle that was exchanged is qualified anew.
void take_done(FurnaceKept& out, const trade::FurnaceDue& due) {
  const auto day = furnace_care::day_number(due.done);
  if (!day) return;
  const UpkeepDone done{*day, fmt::format("{}, marked by hand", due.done_by)};
  const auto work = furnace_care::upkeep_of(due.what);
  if (!work) {
    out.set.own_done[due.what] = done;
    return;
  }
  done_then(out.history, *work, done.day, done.by);
  if (*work == Upkeep::muffle) out.reopenings.push_back({Reopened::muffle, done.day, "muffle exchanged", done.by});
}

UpkeepInterval interval_of(const trade::HowOften& often, SetBy by, const std::string& stated_in) {
  UpkeepInterval interval;
  if (often.every_days) interval.every_days = often.every_days->value;
  if (often.after_firings) interval.after_firings = often.after_firings->value;
  if (often.after_hours) interval.after_hours = often.after_hours->value;
  interval.by = by;
  interval.stated_in = stated_in;
  interval.person = often.set_by;
  return interval;
}

void take_dues(FurnaceKept& out, const std::vector<trade::LabDue>& of_lab) {
  for (const trade::FurnaceDue& due : out.furnace.dues) {
    take_done(out, due);
    const bool maker = due.by && due.by->value == trade::IntervalBy::furnace_maker;
    if (due.often.is_said()) out.set.take(due.what, interval_of(due.often, maker ? SetBy::furnace_maker : SetBy::lab, due.stated_in));
  }
  for (const trade::LabDue& due : of_lab) out.set.take(due.what, interval_of_lab(due));
}

/// A muffle serves from the day it was put in, whenever somebody marked it.
void take_muffle(FurnaceKept& out) {
  for (const Reopening& each : out.reopenings) {
    if (each.what == Reopened::muffle) done_then(out.history, Upkeep::muffle, each.day, each.by);
    if (each.what == Reopened::put_into_service) done_then(out.history, Upkeep::muffle, each.day, "being put into service");
  }
}

/// Where use decides, firings are counted from the last time on, however long ago it was.
void count_firings(FurnaceKept& out, records::Store& store, const StorePlace& place) {
  const auto count = [&](const UpkeepInterval& interval, const std::optional<UpkeepDone>& last) {
    if (!last || (!interval.after_firings && !interval.after_hours)) return;
    const std::int64_t from_ms = day_begins_ms(furnace_care::day_text(last->day + 1), place.zone);
    out.history.counted_since[last->day] = static_cast<int>(records::count_firings_in(store, out.furnace.name, from_ms));
  };
  const auto last_of = [](const auto& done, const auto& of) {
    const auto found = done.find(of);
    return found == done.end() ? std::nullopt : std::optional(found->second);
  };
  for (const auto& [work, interval] : furnace_care::intervals_of(out.set, out.history)) count(interval, last_of(out.history.done, work));
  for (const auto& [what, interval] : out.set.own) count(interval, last_of(out.set.own_done, what));
}

/// A furnace was in service before its first check and firing, whenever its file was kept.
void order_reopenings(FurnaceKept& out, const StorePlace& place) {
  int& first = out.reopenings.front().day;
  for (const trade::Check& check : out.checks)
    if (!check.at.empty()) first = std::min(first, day_in(place, utc_ms(check.at)));
  for (const int day : out.history.firing_days) first = std::min(first, day);
  std::stable_sort(out.reopenings.begin(), out.reopenings.end(),
                   [](const Reopening& one, const Reopening& other) { return one.day < other.day; });
}

/// What the last repair or change still wants: the works it reopened that no check since has done.
void take_missing(FurnaceKept& out) {
  const Reopening& last = out.reopenings.back();
  if (last.what == Reopened::put_into_service) return;
  out.history.repaired = UpkeepDone{last.day, last.by};
  out.history.repaired_what = last.words;
  for (const Upkeep work : furnace_care::works_reopened(last.what)) {
    const auto done = out.history.done.find(work);
    if (done == out.history.done.end() || done->second.day < last.day) out.history.missing_since_repair.push_back(work);
  }
}

}  // namespace

std::vector<Upkeep> works_of(CheckOf of) {
  switch (of) {
    case CheckOf::temperature:
    case CheckOf::thermocouple:
      return {Upkeep::temperature};
    case CheckOf::chamber_map:
      return {Upkeep::chamber_map};
    case CheckOf::vacuum:
      return {Upkeep::vacuum, Upkeep::weekly_look};
    case CheckOf::heating:
      return {Upkeep::heating};
    case CheckOf::cleaning:
      return {Upkeep::cleaning_firing, Upkeep::white_tab};
    case CheckOf::other:
      break;
  }
  return {Upkeep::weekly_look};
}

UpkeepInterval interval_of_lab(const trade::LabDue& due) {
  return interval_of(due.often, SetBy::lab_for_all, "");
}

std::vector<trade::LabDue> dues_of_lab(records::Store& store) {
  records::HeadQuery query;
  query.kind = trade::word(trade::Noun::lab);
  const auto page = store.heads(query);
  if (page.rows.empty()) return {};
  const auto document = store.find(query.kind, page.rows.front().id);
  return document ? read_kept<trade::Lab>(kept_source(*document)).dues : std::vector<trade::LabDue>{};
}

std::vector<std::string> furnaces_kept(records::Store& store) {
  std::vector<std::string> names;
  records::HeadQuery query;
  query.kind = trade::word(trade::Noun::furnace);
  for (;; ++query.page) {
    const auto page = store.heads(query);
    for (const records::Head& head : page.rows) names.push_back(head.id);
    if (page.rows.size() < records::rows_a_page) return names;
  }
}

FurnaceKept furnace_kept(records::Store& store, const StorePlace& place, const std::string& furnace, const std::string& today) {
  FurnaceKept out;
  take_furnace(out, store, place, furnace);
  out.history.today = furnace_care::day_number(today).value_or(0);
  out.checks = checks_of_furnace(store, furnace);
  for (const trade::Check& check : out.checks)
    if (!check.at.empty()) take_check(out, check, day_in(place, utc_ms(check.at)));
  take_firings(out, store, place, day_begins_ms(day_after(today, 1), place.zone));
  take_dues(out, dues_of_lab(store));
  order_reopenings(out, place);
  take_muffle(out);
  count_firings(out, store, place);
  take_missing(out);
  return out;
}

}  // namespace heatwork::desk
