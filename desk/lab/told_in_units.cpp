#include "desk/lab/told_in_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>

namespace heatwork::desk {
namespace {

constexpr double degrees_per_kelvin = 1.8, freezing_F = 32;

bool is_digit(char letter) {
  return letter >= '0' && letter <= '9';
}
bool is_letter(char letter) {
  return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') || static_cast<unsigned char>(letter) >= 0x80;
}

/// A number as it stands in a text, with its sign and its decimal mark.
struct Number {
  std::size_t from = 0, to = 0;
  double value = 0;
  int decimals = 0;
  char mark = '.';
};

/// The number that begins here; nothing where none does, or a name or another number goes on here.
std::optional<Number> number_at(std::string_view text, std::size_t at) {
  if (at > 0 && (is_letter(text[at - 1]) || is_digit(text[at - 1]) || text[at - 1] == '-' || text[at - 1] == '.')) return std::nullopt;
  Number number;
  number.from = at;
  if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
  const std::size_t digits = at;
  while (at < text.size() && is_digit(text[at])) ++at;
  if (at == digits) return std::nullopt;
  std::string plain(text.substr(number.from, at - number.from));
  if (at + 1 < text.size() && (text[at] == '.' || text[at] == ',') && is_digit(text[at + 1])) {
    number.mark = text[at];
    const std::size_t after = ++at;
    while (at < text.size() && is_digit(text[at])) ++at;
    number.decimals = static_cast<int>(at - after);
    plain += '.' + std::string(text.substr(after, at - after));
  }
  number.to = at;
  number.value = std::strtod(plain.c_str(), nullptr);
  return number;
}

std::size_t after_blanks(std::string_view text, std::size_t at) {
  while (at < text.size() && (text[at] == ' ' || text[at] == '\n')) ++at;
  return at;
}

struct UnitFound {
  std::string_view there, told;
  bool is_temperature = false;
};

std::optional<UnitFound> unit_at(std::string_view text, std::size_t at) {
  static constexpr std::array<UnitFound, 3> units{{{"K/min", "°F/min", false}, {"K", "°F", false}, {"°C", "°F", true}}};
  for (const UnitFound& unit : units) {
    if (text.substr(at, unit.there.size()) != unit.there) continue;
    const std::size_t end = at + unit.there.size();
    if (end < text.size() && (is_letter(text[end]) || text[end] == '/')) continue;
    return unit;
  }
  return std::nullopt;
}

/// The words between the two ends of a range.
std::optional<std::size_t> second_of_range(std::string_view text, std::size_t at) {
  for (const std::string_view between : {"to", "and", "bis", "und", "±"}) {
    const std::size_t word = after_blanks(text, at);
    if (text.substr(word, between.size()) == between) return after_blanks(text, word + between.size());
  }
  return std::nullopt;
}

/// The unit of a number: behind it, or behind the second end of a range it begins.
std::optional<UnitFound> unit_of(std::string_view text, const Number& number) {
  if (const auto unit = unit_at(text, after_blanks(text, number.to))) return unit;
  const auto second = second_of_range(text, number.to);
  if (!second) return std::nullopt;
  const auto other = number_at(text, *second);
  return other ? unit_at(text, after_blanks(text, other->to)) : std::nullopt;
}

/// How many letters stand in quotes here, with them: what a person typed, or may type, is told as it is. 0: none begin here.
std::size_t quoted_at(std::string_view text, std::size_t at) {
  if (text[at] != '"') return 0;
  const std::size_t end = text.find_first_of("\"\n", at + 1);
  return end == std::string_view::npos || text[end] == '\n' ? 0 : end + 1 - at;
}

std::string told(const Number& number, bool is_temperature, bool has_plus) {
  const double value = number.value * degrees_per_kelvin + (is_temperature ? freezing_F : 0);
  const bool needs_a_digit = !is_temperature && number.decimals == 0 && std::abs(value - std::round(value)) > 1e-9;
  const int decimals = needs_a_digit ? 1 : number.decimals;
  std::string text = has_plus ? fmt::format("{:+.{}f}", value, decimals) : fmt::format("{:.{}f}", value, decimals);
  std::replace(text.begin(), text.end(), '.', number.mark);
  return text;
}

Json told_below(report::TemperatureScale scale, const Json& json) {
  if (const JsonList* list = json.list()) {
    JsonList all;
    for (const Json& each : *list) all.push_back(told_below(scale, each));
    return all;
  }
  if (json.object() == nullptr) return json;
  JsonObject all;
  for (const JsonMember& member : *json.object()) {
    const std::string* text = member.value.text();
    all.push_back(
        {member.key, member.key == "sentence" && text != nullptr ? Json(told_in_units(scale, *text)) : told_below(scale, member.value)});
  }
  return all;
}

}  // namespace

std::string told_in_units(report::TemperatureScale scale, std::string_view text) {
  if (scale == report::TemperatureScale::celsius) return std::string(text);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    if (const std::size_t quoted = quoted_at(text, at); quoted > 0) {
      out += text.substr(at, quoted);
      at += quoted;
      continue;
    }
    const auto number = number_at(text, at);
    const auto unit = number ? unit_of(text, *number) : std::nullopt;
    if (!unit) {
      const auto other = unit_at(text, at);
      // A unit whose number was told already.
      const bool follows_number = other && !out.empty() && at > 0 && (text[at - 1] == ' ' || text[at - 1] == '\n') && [&] {
        const auto last = out.find_last_not_of(" \n");
        return last != std::string::npos && is_digit(out[last]);
      }();
      if (follows_number) {
        out += other->told;
        at += other->there.size();
      } else if (number) {
        out += text.substr(number->from, number->to - number->from);
        at = number->to;
      } else {
        out += text[at++];
      }
      continue;
    }
    out += told(*number, unit->is_temperature, text[number->from] == '+');
    at = number->to;
  }
  return out;
}

Json sentences_in_units(report::TemperatureScale scale, const Json& answer) {
  return scale == report::TemperatureScale::celsius ? answer : told_below(scale, answer);
}

report::TemperatureScale scale_of(std::string_view units) {
  return units == "fahrenheit" ? report::TemperatureScale::fahrenheit : report::TemperatureScale::celsius;
}

}  // namespace heatwork::desk
