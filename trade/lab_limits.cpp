#include "trade/lab_limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

void allow(const Entry& entry, std::initializer_list<std::string_view> keys, std::string_view what) {
  if (entry.value.kind != Node::Kind::table)
    throw Mistake(entry.place, fmt::format("{} is no table; a lab's {} is [{}s.NAME]", for_message(entry.key), what, what));
  for (const Entry& given : entry.value.entries) {
    if (std::find(keys.begin(), keys.end(), given.key) == keys.end())
      throw Mistake(given.place, fmt::format("\"{}\" is no key of a lab's {}; allowed are {}", for_message(given.key), what,
                                             fmt::join(keys.begin(), keys.end(), ", ")));
  }
}

const Node& wanted(const Entry& entry, std::string_view key, Node::Kind kind, std::string_view what) {
  const Node* found = entry.value.find(key);
  if (found == nullptr) throw Mistake(entry.place, fmt::format("the lab's {} {} has no {}", what, entry.key, key));
  const bool number = kind == Node::Kind::number && found->kind == Node::Kind::whole_number;
  if (found->kind != kind && !number)
    throw Mistake(found->place, fmt::format("{} of the lab's {} {} is {}; it is {}", key, what, entry.key, kind_in_words(found->kind),
                                            kind_in_words(kind)));
  return *found;
}

std::string source_of_lab(const Entry& entry, std::string_view what) {
  const Node& source = wanted(entry, "source", Node::Kind::text, what);
  if (source.text.find_first_not_of(" \t") == std::string::npos)
    throw Mistake(source.place, fmt::format("source of the lab's {} {} is empty; write who set it and why", what, entry.key));
  return source.text;
}

double number_in(const Entry& entry, std::string_view key) {
  const Node& node = wanted(entry, key, Node::Kind::number, "limit");
  if (!std::isfinite(node.number))
    throw Mistake(node.place, fmt::format("{} of the lab's limit {} is {}; it is a number", key, entry.key, node.number));
  return node.number;
}

void set_limit(Limits& limits, const Entry& entry) {
  allow(entry, {"first", "second", "unit", "source"}, "limit");
  const auto found = limits.by_name.find(entry.key);
  if (found == limits.by_name.end())
    throw Mistake(entry.place,
                  fmt::format("there is no limit named {}; the shipped limits are in data/limits/limits.toml", for_message(entry.key)));
  Limit limit = found->second;
  const Node& unit = wanted(entry, "unit", Node::Kind::text, "limit");
  if (unit.text != limit.unit)
    throw Mistake(unit.place, fmt::format("unit of the lab's limit {} is \"{}\"; it is \"{}\", as the shipped limit has it", entry.key,
                                          for_message(unit.text), limit.unit));
  limit.first = number_in(entry, "first");
  const bool ships_second = found->second.second.has_value();
  if (const Node* second = entry.value.find("second"); second != nullptr || ships_second) {
    limit.second = number_in(entry, "second");
    const bool falls = ships_second ? *found->second.second < found->second.first : *limit.second < limit.first;
    if (falls ? *limit.second > limit.first : *limit.second < limit.first)
      throw Mistake(second->place, fmt::format("second of the lab's limit {} is {}; it is {} or {}, beyond first", entry.key, *limit.second,
                                               limit.first, falls ? "less" : "more"));
  }
  limit.source = source_of_lab(entry, "limit");
  limit.standing = Standing::assumed;
  limit.of_lab = true;
  found->second = std::move(limit);
}

void set_rule(Limits& limits, const Entry& entry) {
  allow(entry, {"level", "source"}, "rule");
  const auto found = limits.rules.find(entry.key);
  if (found == limits.rules.end())
    throw Mistake(entry.place,
                  fmt::format("there is no rule named {}; the shipped rules are in data/limits/limits.toml", for_message(entry.key)));
  const Node& level = wanted(entry, "level", Node::Kind::text, "rule");
  if (level.text != "fault expected" && level.text != "borderline")
    throw Mistake(level.place,
                  fmt::format("\"{}\" is no level of a rule; allowed are fault expected, borderline", for_message(level.text)));
  found->second.level = level.text == "borderline" ? RuleLevel::borderline : RuleLevel::fault_expected;
  found->second.source = source_of_lab(entry, "rule");
  found->second.standing = Standing::assumed;
  found->second.of_lab = true;
}

}  // namespace

Limits with_lab_limits(const Limits& shipped, std::string_view source_name, std::string_view text) {
  const auto source = source_of(source_name, text);
  const Node root = parse_toml(source);
  const Node* format = root.find("format");
  if (format == nullptr || format->kind != Node::Kind::whole_number || format->number != 1)
    throw Mistake(format == nullptr ? Place{source, 1, 1} : format->place, "a file of the lab's limits begins with format = 1");
  Limits limits = shipped;
  for (const Entry& entry : root.entries) {
    if (entry.key == "format") continue;
    const bool of_limits = entry.key == "limits";
    if (!of_limits && entry.key != "rules")
      throw Mistake(entry.place,
                    fmt::format("\"{}\" has no place in a file of the lab's limits; allowed are format, [limits.NAME] and [rules.NAME]",
                                for_message(entry.key)));
    if (entry.value.kind != Node::Kind::table)
      throw Mistake(entry.place, fmt::format("{} is no table; write [{}.NAME]", entry.key, entry.key));
    for (const Entry& one : entry.value.entries) of_limits ? set_limit(limits, one) : set_rule(limits, one);
  }
  return limits;
}

std::optional<std::filesystem::path> find_lab_limits(const std::filesystem::path& firing_file) {
  const std::filesystem::path beside = firing_file.parent_path() / lab_limits_file;
  std::error_code ignored;
  if (std::filesystem::exists(beside, ignored)) return beside;
  return std::nullopt;
}

}  // namespace heatwork::trade
