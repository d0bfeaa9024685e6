#include "desk/lab/local_time.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <chrono>
#include <sstream>
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

template <class Time>
bool read(std::string_view text, const char* form, Time& time) {
  std::istringstream stream{std::string(text)};
  stream >> date::parse(form, time);
  return !stream.fail() && stream.peek() == std::istringstream::traits_type::eof();
}

date::local_days day_of(std::string_view day) {
  date::local_days days;
  if (day.size() != 10 || !read(day, "%F", days)) refuse(day, "day such as 2026-11-25");
  return days;
}

}  // namespace

std::string utc_text(std::int64_t at_ms) {
  return date::format("%FT%TZ", date::floor<std::chrono::seconds>(Moment(milliseconds(at_ms))));
}

std::int64_t utc_ms(std::string_view text) {
  Moment moment;
  if (!read(text, "%FT%TZ", moment)) refuse(text, "moment in UTC such as 2026-11-25T17:11:04Z");
  return moment.time_since_epoch().count();
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
  date::local_time<milliseconds> at;
  if (typed.size() != 16 || !read(typed, "%F %H:%M", at)) refuse(typed, "moment such as \"2026-11-25 18:11\"");
  const Moment moment = moment_of(at, zone);
  const std::int64_t ms = moment.time_since_epoch().count();
  if (local(ms, zone) != at)
    throw Failure(ErrorWord::bad_value, fmt::format("There was no {} in {}: the clocks were put forward over it.", typed, zone));
  return ms;
}

}  // namespace heatwork::desk
