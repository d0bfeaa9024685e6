#include "records/copy_name.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <chrono>
#include <string_view>

#include "records/durable.h"
#include "records/findings.h"
#include "records/store_error.h"

namespace heatwork::records {

namespace {

constexpr std::size_t digits_of_store = 8;
constexpr std::size_t time_length = 16;  // 20261125T171104Z
constexpr std::string_view ending = ".sqlite";

std::string beginning(const std::string& store_id) {
  return "heatwork-" + store_id.substr(0, digits_of_store) + "-";
}

/// Digits of a fixed place as a number; -1 where they are none.
int number(std::string_view text, std::size_t from, std::size_t length) {
  int value = 0;
  for (const char sign : text.substr(from, length)) {
    if (sign < '0' || sign > '9') return -1;
    value = value * 10 + (sign - '0');
  }
  return value;
}

/// Of 20261125T171104Z.
std::optional<std::int64_t> seconds_of_compact(std::string_view text) {
  if (text.size() != time_length || text[8] != 'T' || text[15] != 'Z') return std::nullopt;
  const int year = number(text, 0, 4), month = number(text, 4, 2), day = number(text, 6, 2);
  const int hour = number(text, 9, 2), minute = number(text, 11, 2), second = number(text, 13, 2);
  if (year < 0 || month < 0 || day < 0 || hour < 0 || minute < 0 || second < 0) return std::nullopt;
  const std::chrono::year_month_day date(std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day)));
  if (!date.ok() || hour > 23 || minute > 59 || second > 60) return std::nullopt;
  const std::int64_t days = std::chrono::sys_days(date).time_since_epoch().count();
  return ((days * 24 + hour) * 60 + minute) * 60 + second;
}

/// 2026-11-25T17:11:04.123Z as 20261125T171104Z; whatever it is not stays visible.
std::string compact(const std::string& utc) {
  std::string text;
  for (const char sign : utc.substr(0, utc.find('.'))) {
    if (sign != '-' && sign != ':') text += sign;
  }
  if (!text.ends_with('Z')) text += 'Z';
  return text;
}

}  // namespace

std::int64_t seconds_of(const std::string& utc) {
  const std::optional<std::int64_t> seconds = utc.ends_with('Z') ? seconds_of_compact(compact(utc)) : std::nullopt;
  if (!seconds) {
    throw StoreError(StoreProblem::bad_value, fmt::format("{} is no time; one is written as 2026-11-25T17:11:04.123Z.", quoted(utc)));
  }
  return *seconds;
}

std::string copy_name(const std::string& store_id, const std::string& now_utc) {
  (void)seconds_of(now_utc);
  return beginning(store_id) + compact(now_utc) + std::string(ending);
}

std::optional<std::int64_t> time_of_copy(const std::string& name, const std::string& store_id) {
  const std::string start = beginning(store_id);
  if (name.size() != start.size() + time_length + ending.size() || !name.starts_with(start) || !name.ends_with(ending)) return std::nullopt;
  return seconds_of_compact(std::string_view(name).substr(start.size(), time_length));
}

bool is_unfinished_copy(const std::string& full_name, const std::string& store_id) {
  // What is being made for such a name is hidden by a dot before it.
  const std::string name = full_name.starts_with('.') ? full_name.substr(1) : full_name;
  const std::size_t at = name.find(std::string(ending));
  if (at == std::string::npos || !time_of_copy(name.substr(0, at + ending.size()), store_id)) return false;
  const std::string rest = name.substr(at + ending.size());
  const std::string part(unfinished);
  return rest.starts_with(part) || rest == ".txt" + part;
}

}  // namespace heatwork::records
