#include "server/session_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <exception>
#include <filesystem>
#include <stdexcept>
#include <string_view>

#include "desk/files.h"
#include "desk/json_value.h"

namespace heatwork::server {
namespace {

constexpr std::array<std::string_view, 3> ways{"machine", "password", "pin"};

desk::Json as_json(const AllKept& all, const std::string& lab) {
  desk::JsonList sessions, devices;
  for (const SessionKept& each : all.sessions)
    sessions.push_back(desk::JsonObject{{"key", each.key},
                                        {"person", each.person},
                                        {"mark", each.mark},
                                        {"by", ways.at(static_cast<std::size_t>(each.by))},
                                        {"demo", each.demo},
                                        {"begun_ms", static_cast<double>(each.begun_ms)},
                                        {"seen_ms", static_cast<double>(each.seen_ms)},
                                        {"password_until_ms", static_cast<double>(each.password_until_ms)}});
  for (const DeviceKept& each : all.devices)
    devices.push_back(
        desk::JsonObject{{"key", each.key}, {"entered_ms", static_cast<double>(each.entered_ms)}, {"wrong_pins", each.wrong_pins}});
  return desk::JsonObject{{"format", 1}, {"lab", lab}, {"sessions", std::move(sessions)}, {"devices", std::move(devices)}};
}

// Errors of all: std::runtime_error where a member is not there or is of another kind.

const desk::Json& member(const desk::Json& object, std::string_view key) {
  const desk::Json* found = object.find(key);
  if (found == nullptr) throw std::runtime_error("a member is missing");
  return *found;
}

std::string text(const desk::Json& object, std::string_view key) {
  const std::string* found = member(object, key).text();
  if (found == nullptr) throw std::runtime_error("a member is no text");
  return *found;
}

std::int64_t whole(const desk::Json& object, std::string_view key) {
  const double* found = member(object, key).number();
  if (found == nullptr || !(*found >= 0 && *found < 1e15)) throw std::runtime_error("a member is no number");
  return static_cast<std::int64_t>(*found);
}

const desk::JsonList& list(const desk::Json& object, std::string_view key) {
  const desk::JsonList* found = member(object, key).list();
  if (found == nullptr) throw std::runtime_error("a member is no list");
  return *found;
}

SignedInBy way(const std::string& word) {
  for (std::size_t i = 0; i < ways.size(); ++i)
    if (ways.at(i) == word) return static_cast<SignedInBy>(i);
  throw std::runtime_error("a way is not known");
}

AllKept all_of(const desk::Json& json) {
  AllKept all;
  for (const desk::Json& each : list(json, "sessions")) {
    const bool* demo = member(each, "demo").truth();
    all.sessions.push_back({text(each, "key"), text(each, "person"), text(each, "mark"), way(text(each, "by")), demo != nullptr && *demo,
                            whole(each, "begun_ms"), whole(each, "seen_ms"), whole(each, "password_until_ms")});
  }
  for (const desk::Json& each : list(json, "devices"))
    all.devices.push_back({text(each, "key"), whole(each, "entered_ms"), static_cast<int>(whole(each, "wrong_pins"))});
  return all;
}

bool put(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(file, bytes.data(), bytes.size());
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return ::fsync(file) == 0;
}

}  // namespace

AllKept SessionFile::read() const {
  if (path_.empty() || !std::filesystem::exists(path_)) return {};
  try {
    const desk::Json json = desk::read_json(path_, desk::read_whole(path_));
    if (whole(json, "format") != 1 || text(json, "lab") != lab_) return {};
    return all_of(json);
  } catch (const std::exception&) {
    return {};
  }
}

void SessionFile::keep(const std::function<AllKept()>& now) {
  if (path_.empty()) return;
  const std::lock_guard lock(mutex_);
  const std::string bytes = desk::write_json(as_json(now(), lab_));
  std::error_code ignored;
  std::filesystem::create_directories(std::filesystem::path(path_).parent_path(), ignored);
  const std::string unfinished = path_ + ".new";
  ::unlink(unfinished.c_str());
  const int file = ::open(unfinished.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) return;
  const bool whole_written = put(file, bytes);
  ::close(file);
  if (!whole_written || ::rename(unfinished.c_str(), path_.c_str()) != 0) ::unlink(unfinished.c_str());
}

std::string session_file_of(const std::string& data_folder, int port) {
  return port == 0 ? "" : (std::filesystem::path(data_folder) / fmt::format("sessions-{}.json", port)).string();
}

}  // namespace heatwork::server
