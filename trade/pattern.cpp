#include "trade/pattern.h"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace heatwork::trade {
namespace {

const std::string gap = "[ \u00a0\u202f\u2009]*";
const std::string prefix = "[GMkhdcmnuµμ]?";
const std::string times = "(" + prefix + "s|min|h|d)";
const std::string celsius_or_fahrenheit = "((° ?|deg ?)?[CF]|[℃℉])";
const std::string differences = "(" + prefix + "K|" + celsius_or_fahrenheit + ")";
const std::string per_time = "( ?/ ?" + times + "|[ ·]" + times + "\\^?[-⁻][1¹])";
const std::string areas = prefix + "m(²|\\^?2)";
const std::string pressures = "(" + prefix + "(Pa|bar)|mmHg|inHg|" + prefix + "N ?/ ?" + areas + ")";

/// A comma before exactly three digits may be a mark of thousands, so it stands after a zero only.
std::string number(Sign sign) {
  const std::string_view before = sign == Sign::any ? "[+−-]?" : sign == Sign::positive ? "(?=[+]?[0.,]*[1-9])[+]?" : "[+]?";
  return fmt::format("{}(0+,[0-9]{{3}}|[0-9]+([.][0-9]+|,[0-9]{{1,2}}|,[0-9]{{4,}})?)([eE][+-]?[0-9]+)?", before);
}

std::string whole(std::string_view inside) {
  return fmt::format("^{}{}{}$", gap, inside, gap);
}

/// A clock, or parts from the longest unit down.
std::string durations(Sign sign) {
  const std::string each = number(Sign::not_negative) + gap;
  const auto part = [&](std::string_view unit) { return fmt::format("({}{}{})?", each, unit, gap); };
  return fmt::format("(?=.*{})([0-9]{{1,3}}(:[0-5][0-9]){{1,2}}|{}{}{}{})", sign == Sign::positive ? "[1-9]" : "[0-9]", part("d"),
                     part("h"), part("min"), part(prefix + "s"));
}

/// One symbol of a unit, whatever its prefix; its power is written by the caller.
std::string symbol(std::string_view name) {
  static constexpr std::array<std::string_view, 8> bases{"mol", "Pa", "m", "g", "J", "W", "N", "V"};
  if (name == "K") return differences;
  if (name == "s") return times;
  if (name == "ppm") return "(ppm|%|10\\^?-6|10⁻⁶|1)?";
  if (name == "%") return "(%|ppm)";
  for (const auto base : bases)
    if (name.ends_with(base) && name.size() <= base.size() + 2) return fmt::format("{}{}", prefix, base);
  throw std::invalid_argument(fmt::format("The symbol {} has no pattern.", name));
}

/// The part of a unit between brackets and slashes: symbols with powers, one space between two.
std::string product(std::string_view text, std::string_view between) {
  std::string out;
  while (!text.empty()) {
    std::size_t end = 0;
    while (end < text.size() && text[end] != ' ' && std::isdigit(static_cast<unsigned char>(text[end])) == 0) ++end;
    if (end > 0) out += symbol(text.substr(0, end));
    text.remove_prefix(end);
    if (text.empty()) break;
    const char next = text.front();
    text.remove_prefix(1);
    if (next == ' ') {
      out += between;
    } else if (end == 0) {
      out += fmt::format("{}?", next);  // the 1 of 1/s
    } else {
      out += next == '2' ? "(²|\\^?2)" : next == '3' ? "(³|\\^?3)" : fmt::format("\\^?{}", next);
    }
  }
  return out;
}

std::string any_prefix(std::string_view unit) {
  constexpr std::string_view over = " ?/ ?";
  constexpr std::string_view times_each = "[ ·*×]+";
  const auto slash = unit.find('/');
  if (slash == std::string_view::npos) return product(unit, times_each);
  const std::string above = product(unit.substr(0, slash), times_each);
  std::string_view below = unit.substr(slash + 1);
  if (!below.starts_with('(')) return fmt::format("{}{}{}", above, over, product(below, times_each));
  below = below.substr(1, below.size() - 2);
  return fmt::format("{}{}(\\( ?{} ?\\)|{})", above, over, product(below, times_each), product(below, over));
}

}  // namespace

std::string pattern_of_kind(std::string_view kind, Sign sign) {
  static const std::array<std::pair<std::string_view, std::string>, 12> units{{
      {"a temperature", celsius_or_fahrenheit},
      {"a temperature difference", differences},
      {"a heating rate", differences + per_time},
      {"a pressure", pressures + "( ?(absolute|below ambient))?"},
      {"a rate of pressure", pressures + per_time},
      {"a length", prefix + "m"},
      {"an area", areas},
      {"a volume", "(" + prefix + "m(³|\\^?3)|" + prefix + "[lL])"},
      {"a mass", prefix + "g"},
      {"a voltage", prefix + "V"},
      {"a share", "(%|ppm)"},
      {"a rate per time", "(1? ?/ ?" + times + "|" + times + "\\^?[-⁻][1¹])"},
  }};
  if (kind == "a duration") return whole(durations(sign));
  for (const auto& [name, unit] : units)
    if (name == kind) return whole(fmt::format("{}{}{}", number(sign), gap, unit));
  throw std::invalid_argument(fmt::format("The kind {} has no pattern.", kind));
}

std::string pattern_of_gauge_sample() {
  return whole(fmt::format("{}, {}{}(mbar|hPa|kPa|Pa|mmHg|inHg|%)", durations(Sign::not_negative), number(Sign::not_negative), gap));
}

std::string pattern_of_temperature_sample() {
  return whole(fmt::format("{}, {}{}{}", durations(Sign::not_negative), number(Sign::any), gap, celsius_or_fahrenheit));
}

std::string pattern_of_unit(std::string_view unit, Sign sign) {
  if (unit.empty()) return whole(number(sign));
  if (unit == "°C") return pattern_of_kind("a temperature", sign);
  if (unit.starts_with("ln ")) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 4> logarithms{
        {{"ln 1/s", "1/s"}, {"ln s/K", "s/K"}, {"ln µm3/s", "[µμu]m[3³]/s"}, {"ln µm4/s", "[µμu]m[4⁴]/s"}}};
    for (const auto& [name, pattern] : logarithms)
      if (name == unit) return whole(fmt::format("{}{}ln {}", number(sign), gap, pattern));
    throw std::invalid_argument(fmt::format("The unit {} has no pattern.", unit));
  }
  return whole(fmt::format("{}{}{}", number(sign), gap, any_prefix(unit)));
}

}  // namespace heatwork::trade
