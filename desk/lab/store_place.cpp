#include "desk/lab/store_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <system_error>

#include "desk/columns.h"
#include "desk/errors.h"
#include "quantity/read.h"
#include "records/copy_name.h"
#include "records/progress.h"

namespace heatwork::desk {
namespace {

constexpr std::size_t care_margin = 13;

/// The sentences that name what a person can fall back on.
std::string copies_in_words(const StorePlace& place) {
  constexpr std::size_t shown = 3;
  if (place.backups.empty()) return "The settings name no folder of backups; look for one you keep, the newest first.";
  const std::vector<CopySeen> seen = copies_seen(place.backups);
  if (seen.empty()) return fmt::format("No backup is seen in {}.", place.backups);
  std::string said = "Backups seen, the newest first:";
  for (std::size_t i = 0; i < std::min(seen.size(), shown); ++i) said += (i == 0 ? " " : ", ") + seen[i].path;
  return said + (". \"heatwork store restore\" brings one back where no store stands.");
}

std::string free_in_words(const records::Address& address) {
  if (address.engine != records::Engine::sqlite) return "";
  std::error_code error;
  const auto space = std::filesystem::space(std::filesystem::absolute(address.where).parent_path(), error);
  return error ? "" : fmt::format("Its disk has {} free.", bytes_in_words(static_cast<std::int64_t>(space.available)));
}

std::string advice_on(const StorePlace& place, records::StoreProblem problem) {
  const bool server = place.address.engine == records::Engine::postgresql;
  using enum records::StoreProblem;
  switch (problem) {
    case no_store:
      return server ? "Is the name of the database right? It is made on its server (\"createdb\"), then \"heatwork store create\"."
                    : "\"heatwork store create\" makes one, \"heatwork store restore BACKUP\" brings one back.";
    case damaged:
      return copies_in_words(place);
    case full:
      return free_in_words(place.address);
    case unreachable:
      return server ? "See that the server runs, that host and port are right and not held back by a firewall, and, where the address asks "
                      "for TLS, that the server speaks it."
                    : "";
    case refused:
      return server ? "See that user and password are right (a password may stand in ~/.pgpass) and that the user may use this database."
                    : "See who owns the file and its folder, and start Heatwork as that person.";
    case too_new:
      return "Nothing was changed.";
    default:
      return "";
  }
}

}  // namespace

records::Store opened(const StorePlace& place, Reading reading) {
  records::Opening opening = place.opening;
  opening.read_only = reading == Reading::only;
  opening.make = false;
  return records::Store::open(place.address, opening);
}

StorePlace at_address(const StorePlace& place, const std::string& address) {
  StorePlace other = place;
  other.address = records::read_address(address);
  return other;
}

records::Watch watch_of(const CareWatch& watch) {
  if (!watch) return {};
  return [watch](std::int64_t done, std::int64_t all) { return watch(done, all); };
}

std::vector<CopySeen> copies_seen(const std::string& folder) {
  constexpr std::string_view start = "heatwork-";
  constexpr std::size_t digits_of_store = 8;
  std::vector<CopySeen> seen;
  std::error_code error;
  for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    const std::string name = at->path().filename().string();
    if (!name.starts_with(start) || name.size() < start.size() + digits_of_store) continue;
    const std::string store = name.substr(start.size(), digits_of_store);
    if (const auto at_s = records::time_of_copy(name, store)) seen.push_back({at->path().string(), store, *at_s});
  }
  std::sort(seen.begin(), seen.end(), [](const CopySeen& one, const CopySeen& other) {
    return one.at_s != other.at_s ? one.at_s > other.at_s : one.path < other.path;
  });
  return seen;
}

std::int64_t seconds_of_every(const std::string& every) {
  const auto read = quantity::read<quantity::Duration>(every);
  if (!read) throw Failure(ErrorWord::bad_value, fmt::format("How often to back up: {}", read.error()));
  const double seconds = read->si();
  if (!(seconds >= 60))
    throw Failure(ErrorWord::bad_value, fmt::format("How often to back up is \"{}\", but must be at least 1 min.", every));
  return std::llround(seconds);
}

bool own_store_stands(const StorePlace& place) {
  std::error_code ignored;
  return place.nobody_named_it && std::filesystem::exists(place.address.where, ignored);
}

std::string store_was_made(const StorePlace& place) {
  return care_line("Store", fmt::format("made at {}, as none was named", place.address.shown()));
}

void rethrow_with_advice(const StorePlace& place, const records::StoreError& error) {
  if (dynamic_cast<const records::Progress::Stopped*>(&error) != nullptr) throw Failure(ErrorWord::stopped, error.what());
  const std::string said = error.what();
  // What is said of a backup, an export or a folder is no matter of the store's own place.
  const bool of_the_store = said.starts_with("The store ") || said.starts_with("There is no store ");
  const std::string advice = of_the_store ? advice_on(place, error.problem()) : "";
  // A use case may ask another one, which has advised already.
  throw records::StoreError(error.problem(), advice.empty() || said.ends_with(advice) ? said : said + " " + advice);
}

std::string care_line(std::string_view what, std::string_view says) {
  return wrapped(fmt::format("{:<{}}{}", what, care_margin, says), care_margin, 0);
}

std::string bytes_in_words(std::int64_t bytes) {
  const auto amount = static_cast<double>(bytes);
  if (amount < 1e3) return counted(bytes, "byte", "bytes");
  for (const auto& [unit, size] : {std::pair{"kB", 1e3}, {"MB", 1e6}, {"GB", 1e9}}) {
    if (amount < size * 999.5) return fmt::format("{:.3g} {}", amount / size, unit);
  }
  return fmt::format("{:.4g} TB", amount / 1e12);
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace heatwork::desk
