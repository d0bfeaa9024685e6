#include "desk/lab/local_time.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <stdexcept>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

using std::chrono::milliseconds;
using Moment = date::sys_time<milliseconds>;

[[noreturn]] void refuse(std::string_view text, std::string_view allowed) {
  throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" is no {}.", text.substr(0, 60), allowed));
}

/// nullptr for UTC, which needs no table of zones.
const date::time_zone* zone_of(std::string_view zone) {
  if (zone.empty() || zone == "UTC" || zone == "Etc/UTC") return nullptr;
  try {
    return date::locate_zone(std::string(zone));
  } catch (const std::runtime_error&) {
    throw Failure(ErrorWord::bad_value, fmt::format("There is no time zone {} on this machine.", zone.substr(0, 60)));
  }
}

date::local_time<milliseconds> local(std::int64_t at_ms, std::string_view zone) {
  const Moment at{milliseconds(at_ms)};
  const date::time_zone* known = zone_of(zone);
  return known == nullptr ? date::local_time<milliseconds>(at.time_since_epoch()) : known->to_local(at);
}

/// The first moment of that local time; where the clocks are put back it is there twice.
Moment moment_of(date::local_time<milliseconds> at, std::string_view zone) {
  const date::time_zone* known = zone_of(zone);
  return known == nullptr ? Moment(at.time_since_epoch()) : known->to_sys(at, date::choose::earliest);
}

/// Exactly so many digits at a place of a text.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
  if (text.size() < at + count) return std::nullopt;
  int value = 0;
  for (const char letter : text.substr(at, count)) {
    if (letter < '0' || letter > '9') return std::nullopt;
    value = 10 * value + (letter - '0');
  }
  return value;
}

std::optional<date::local_days> read_day(std::string_view text) {
  const auto year = digits(text, 0, 4), month = digits(text, 5, 2), day = digits(text, 8, 2);
  if (text.size() != 10 || !year || !month || !day || text[4] != '-' || text[7] != '-') return std::nullopt;
  const date::year_month_day date{date::year(*year), date::month(static_cast<unsigned>(*month)), date::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  return date::local_days(date);
}

/// "18:11" or "18:11:04". [ms from the day's beginning]
std::optional<milliseconds> read_clock(std::string_view text, bool with_seconds) {
  const auto hours = digits(text, 0, 2), minutes = digits(text, 3, 2), seconds = with_seconds ? digits(text, 6, 2) : 0;
  if (text.size() != (with_seconds ? 8U : 5U) || !hours || !minutes || !seconds || text[2] != ':') return std::nullopt;
  if ((with_seconds && text[5] != ':') || *hours > 23 || *minutes > 59 || *seconds > 59) return std::nullopt;
  return std::chrono::hours(*hours) + std::chrono::minutes(*minutes) + std::chrono::seconds(*seconds);
}

/// ".25" of a second, or nothing. [ms]
std::optional<milliseconds> read_parts(std::string_view text) {
  if (text.empty()) return milliseconds(0);
  if (text.size() < 2 || text.size() > 10 || text.front() != '.') return std::nullopt;
  std::string three(text.substr(1, 3));
  three.resize(3, '0');
  const auto value = digits(three, 0, 3);
  if (!value || !digits(text, 1, text.size() - 1)) return std::nullopt;
  return milliseconds(*value);
}

date::local_days day_of(std::string_view text) {
  const auto day = read_day(text);
  if (!day) refuse(text, "day such as 2026-11-25");
  return *day;
}

}  // namespace

std::string utc_text(std::int64_t at_ms) {
  return date::format("%FT%TZ", date::floor<std::chrono::seconds>(Moment(milliseconds(at_ms))));
}

std::int64_t utc_ms(std::string_view text) {
  if (text.size() >= 20 && text[10] == 'T' && text.back() == 'Z') {
    const auto day = read_day(text.substr(0, 10));
    const auto clock = read_clock(text.substr(11, 8), true);
    const auto parts = read_parts(text.substr(19, text.size() - 20));
    if (day && clock && parts) return (milliseconds(day->time_since_epoch()) + *clock + *parts).count();
  }
  refuse(text, "moment in UTC such as 2026-11-25T17:11:04Z");
}

std::string local_text(std::int64_t at_ms, std::string_view zone) {
  return date::format("%F %H:%M", date::floor<std::chrono::minutes>(local(at_ms, zone)));
}

std::string local_day(std::int64_t at_ms, std::string_view zone) {
  return date::format("%F", date::floor<date::days>(local(at_ms, zone)));
}

std::int64_t day_begins_ms(std::string_view day, std::string_view zone) {
  return moment_of(date::local_time<milliseconds>(day_of(day).time_since_epoch()), zone).time_since_epoch().count();
}

std::string day_after(std::string_view day, int days) {
  return date::format("%F", day_of(day) + date::days(days));
}

std::int64_t typed_ms(std::string_view typed, std::string_view zone) {
  if (typed.ends_with('Z')) return utc_ms(typed);
  const auto day = read_day(typed.substr(0, 10));
  const auto clock = typed.size() == 16 && typed[10] == ' ' ? read_clock(typed.substr(11), false) : std::nullopt;
  if (!day || !clock) refuse(typed, "moment such as \"2026-11-25 18:11\"");
  const auto at = date::local_time<milliseconds>(day->time_since_epoch()) + *clock;
  const Moment moment = moment_of(at, zone);
  const std::int64_t ms = moment.time_since_epoch().count();
  if (local(ms, zone) != at)
    throw Failure(ErrorWord::bad_value, fmt::format("There was no {} in {}: the clocks were put forward over it.", typed, zone));
  const date::time_zone* known = zone_of(zone);
  const Moment again = known == nullptr ? moment : known->to_sys(at, date::choose::latest);
  if (again != moment)
    throw Failure(ErrorWord::bad_value, fmt::format("There was {} twice in {}, for the clocks were put back: say {} or {}.", typed, zone,
                                                    utc_text(ms), utc_text(again.time_since_epoch().count())));
  return ms;
}

}  // namespace heatwork::desk
