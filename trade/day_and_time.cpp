#include <fmt/format.h>

#include <array>

#include "trade/mistake.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Reading;
using tl::make_unexpected;

/// Whether a text is spelled like a pattern: 0 stands for any digit, all else for itself.
bool is_spelled_like(std::string_view text, std::string_view pattern) {
  if (text.size() != pattern.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (pattern[i] == '0' ? text[i] < '0' || text[i] > '9' : text[i] != pattern[i]) return false;
  return true;
}

int two_digits(std::string_view text, std::size_t at) {
  return 10 * (text[at] - '0') + (text[at + 1] - '0');
}

int days_of(int year, int month) {
  static constexpr std::array<int, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
  return month == 2 && leap ? 29 : days[static_cast<std::size_t>(month - 1)];
}

/// What is wrong with the day a text begins with, whose digits are right; nothing where it is one of the calendar.
std::string wrong_day(std::string_view text) {
  const int year = 100 * two_digits(text, 0) + two_digits(text, 2);
  const int month = two_digits(text, 5);
  const int day = two_digits(text, 8);
  if (month < 1 || month > 12) return fmt::format("there is no month {:02}, it is written year, month, day: 2026-03-17", month);
  if (day >= 1 && day <= days_of(year, month)) return {};
  return fmt::format("month {:02} of {:04} has days 01 to {}", month, year, days_of(year, month));
}

std::string with_thousandths(const std::string& moment) {
  return moment.size() == 20 ? moment.substr(0, 19) + ".000Z" : moment;
}

}  // namespace

Reading<std::string> DateCodec::read(const Node& node, const ReadingAid& aid) const {
  if (node.kind == Node::Kind::time) return make_unexpected(std::string("a date stands in quotes here, such as \"2026-03-17\""));
  const auto text = TextCodec{4000}.read(node, aid);
  if (!text) return text;
  if (!is_spelled_like(*text, "0000-00-00"))
    return make_unexpected(fmt::format("\"{}\" is not a date; it is written 2026-03-17", for_message(*text)));
  if (const auto wrong = wrong_day(*text); !wrong.empty()) return make_unexpected(fmt::format("\"{}\" is not a date; {}", *text, wrong));
  return text;
}

Nature DateCodec::nature() const {
  Nature nature{Nature::Type::text, "a date", "2026-03-17", {}, {}, {}, {}};
  nature.pattern = "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$";
  return nature;
}

Reading<std::string> TimeCodec::read(const Node& node, const ReadingAid& aid) const {
  if (node.kind == Node::Kind::time) return make_unexpected(std::string("a time stands in quotes here, such as \"2026-11-25T17:11:04Z\""));
  const auto read = TextCodec{4000}.read(node, aid);
  if (!read) return read;
  std::string text = *read;
  if (!is_spelled_like(text, "0000-00-00T00:00:00Z") && !is_spelled_like(text, "0000-00-00T00:00:00.000Z"))
    return make_unexpected(fmt::format("\"{}\" is not a time in UTC; it is written 2026-11-25T17:11:04Z", for_message(text)));
  if (const auto wrong = wrong_day(text); !wrong.empty()) return make_unexpected(fmt::format("\"{}\" is not a time; {}", text, wrong));
  if (text < "1970") return make_unexpected(fmt::format("\"{}\" is out of range; allowed is from 1970 on", text));
  if (two_digits(text, 11) > 23 || two_digits(text, 14) > 59 || two_digits(text, 17) > 59)
    return make_unexpected(fmt::format("\"{}\" is not a time; a day ends with 23:59:59", text));
  if (text.ends_with(".000Z")) text = text.substr(0, 19) + "Z";
  return text;
}

Nature TimeCodec::nature() const {
  Nature nature{Nature::Type::text, "a time in UTC", "2026-11-25T17:11:04Z", {}, {}, {}, {}};
  nature.pattern =
      "^(19[7-9]|[2-9][0-9]{2})[0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]([.][0-9]{3})?Z$";
  return nature;
}

bool is_before(const std::string& first, const std::string& second) {
  return with_thousandths(first) < with_thousandths(second);
}

Reading<std::string> PersonCodec::read(const Node& node, const ReadingAid& aid) const {
  const auto text = TextCodec{4000}.read(node, aid);
  if (!text) return text;
  bool good = !text->empty() && text->size() <= 60;
  for (const char c : *text) good = good && static_cast<unsigned char>(c) > ' ' && c != 127;
  if (!good)
    return make_unexpected(
        fmt::format("\"{}\" is not a person's code; allowed are up to 60 letters, digits and signs without a space", for_message(*text)));
  return text;
}

Nature PersonCodec::nature() const {
  Nature nature{Nature::Type::text, "a person's code", "hs", {}, {}, {}, "without a space, at most 60"};
  nature.pattern = "^[^\\x00-\\x20\\x7f]{1,60}$";
  return nature;
}

void Fields::day(std::string_view key, std::string& day, std::string_view meaning, PlacesByKey* places) {
  PlacedSlot slot(day, places, key, DateCodec{});
  value({key, meaning, false, {}, Role::for_people}, slot);
}

void Fields::moment(std::string_view key, std::string& moment, std::string_view meaning, PlacesByKey* places, bool is_required) {
  PlacedSlot slot(moment, places, key, TimeCodec{});
  value({key, meaning, is_required, {}, Role::for_people}, slot);
}

void Fields::person(std::string_view key, std::string& code, std::string_view meaning, PlacesByKey* places) {
  PlacedSlot slot(code, places, key, PersonCodec{});
  value({key, meaning, false, {}, Role::for_people}, slot);
}

}  // namespace heatwork::trade
