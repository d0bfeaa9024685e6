#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "desk/lab/local_time.h"
#include "desk/lab/store_care.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {
namespace {

/// Below this a store that grows may meet the end of its disk within days of photos. [byte]
constexpr std::int64_t little_room = 500'000'000;

struct Room {
  std::int64_t free = -1;  ///< on the store's disk; -1: not known from here [byte]
  bool little = false;     ///< less than a copy of the store needs, or less than some days bring
};

Room room_for(const records::Status& status) {
  if (status.address.engine != records::Engine::sqlite) return {};
  std::error_code error;
  const auto space = std::filesystem::space(std::filesystem::absolute(status.address.where).parent_path(), error);
  if (error) return {};
  const auto free = static_cast<std::int64_t>(space.available);
  return {free, free < std::max(little_room, status.bytes)};
}

struct BackupsTold {
  std::string text;
  Json json;
};

BackupsTold backups_of(const StorePlace& place, const records::Status& status) {
  if (place.backups.empty()) {
    return {care_line("Backups", "the settings name no folder for them (\"backups\")"), nullptr};
  }
  const std::string every = place.backups_every.empty() ? "" : fmt::format(", asked for every {}", place.backups_every);
  std::error_code error;
  if (!std::filesystem::is_directory(place.backups, error)) {
    return {care_line("Backups", fmt::format("the folder {} is not there: is its disk plugged in?", place.backups)),
            JsonObject{{"folder", place.backups}, {"there", false}, {"newest", nullptr}, {"newest_utc", nullptr}, {"overdue", true}}};
  }
  for (const CopySeen& copy : copies_seen(place.backups)) {
    if (!status.store_id.starts_with(copy.store)) continue;
    const std::int64_t at_ms = copy.at_s * 1000;
    const bool overdue =
        !place.backups_every.empty() && utc_ms(place.opening.who.at_utc) - at_ms > 1000 * seconds_of_every(place.backups_every);
    return {care_line("Backups", fmt::format("newest of {} in {}{}", local_text(at_ms, place.zone), copy.path, every) +
                                     (overdue ? ". It is overdue: \"heatwork store back-up\" makes one" : "")),
            JsonObject{
                {"folder", place.backups}, {"there", true}, {"newest", copy.path}, {"newest_utc", utc_text(at_ms)}, {"overdue", overdue}}};
  }
  return {care_line("Backups", fmt::format("none of this store in {}{}", place.backups, every)),
          JsonObject{{"folder", place.backups}, {"there", true}, {"newest", nullptr}, {"newest_utc", nullptr}, {"overdue", true}}};
}

struct KindsTold {
  std::string text;
  JsonList json;
  std::int64_t persons = 0;
};

KindsTold kinds_in(records::Store& store) {
  KindsTold told;
  for (const auto& [kind, count] : store.kinds()) {
    told.text += fmt::format("{}{} {}", told.text.empty() ? "" : ", ", kind, count);
    told.json.push_back(JsonObject{{"kind", kind}, {"count", static_cast<double>(count)}});
    if (kind == "person") told.persons = count;
  }
  return told;
}

std::string place_in_words(const records::Status& status) {
  return fmt::format("{} ({})", status.address.shown(),
                     status.address.engine == records::Engine::sqlite ? "one file, SQLite" : "a database of PostgreSQL");
}

std::string roles_in_words(std::int64_t persons) {
  if (persons == 0) return "not in force: no person is entered, so everybody may do everything";
  return fmt::format("in force: {} entered. Whoever can write the store itself stands outside them",
                     counted(persons, "person is", "persons are"));
}

std::string room_in_words(const records::Status& status, const Room& room) {
  std::string said = bytes_in_words(status.bytes);
  if (room.free >= 0) said += fmt::format("; free on its disk: {}", bytes_in_words(room.free));
  if (room.little) said += ". The disk is nearly full: make room before work goes on";
  return said;
}

}  // namespace

CareAnswer status_of_store(const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const records::Status status = store.status();
    const KindsTold told = kinds_in(store);
    const Room room = room_for(status);
    const BackupsTold backups = backups_of(place, status);
    CareAnswer answer;
    answer.text = care_line("Store", place_in_words(status));
    if (!status.moved_to.empty()) answer.text += care_line("Moved", fmt::format("to {}; closed for writing here", status.moved_to));
    answer.text += care_line(
        "Made", fmt::format("{}, format {}, named {}", local_text(utc_ms(status.made_utc), place.zone), status.format, status.store_id));
    answer.text += care_line(
        "Holds", fmt::format("{} in {}, {}, {}, personal data of {}", counted(status.documents, "record", "records"),
                             counted(status.versions, "version", "versions"), counted(status.entries, "trail entry", "trail entries"),
                             counted(status.photos, "photo", "photos"), counted(status.persons_with_data, "person", "persons")));
    if (!told.text.empty()) answer.text += care_line("", told.text);
    answer.text += care_line("Size", room_in_words(status, room));
    answer.text += care_line("Roles", roles_in_words(told.persons));
    answer.text += backups.text;
    answer.text += care_line("Head hash", status.head);
    answer.text += care_line("",
                             "Copy it on paper, with the date: \"heatwork store verify --head HASH\" later shows whether the trail up to "
                             "here was ever cut or rewritten.");
    answer.json = JsonObject{{"format", 1},
                             {"store", status.address.shown()},
                             {"engine", records::word(status.address.engine)},
                             {"store_format", status.format},
                             {"store_id", status.store_id},
                             {"made_utc", status.made_utc},
                             {"moved_to", status.moved_to},
                             {"documents", static_cast<double>(status.documents)},
                             {"versions", static_cast<double>(status.versions)},
                             {"entries", static_cast<double>(status.entries)},
                             {"photos", static_cast<double>(status.photos)},
                             {"persons_with_data", static_cast<double>(status.persons_with_data)},
                             {"kinds", told.json},
                             {"bytes", static_cast<double>(status.bytes)},
                             {"free_bytes", room.free < 0 ? Json(nullptr) : Json(static_cast<double>(room.free))},
                             {"nearly_full", room.little},
                             {"roles_in_force", told.persons > 0},
                             {"backups", backups.json},
                             {"head", status.head}};
    return answer;
  });
}

}  // namespace heatwork::desk
