#include "trade/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "trade/choice.h"
#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

constexpr std::array<std::string_view, 6> keys{"first", "second", "unit", "meaning", "standing", "source"};

constexpr std::array<std::string_view, 4> rule_keys{"level", "meaning", "standing", "source"};

double number_of(const std::string& name, std::string_view key, const Node& node) {
  const bool is_number = node.kind == Node::Kind::number || node.kind == Node::Kind::whole_number;
  if (!is_number || !std::isfinite(node.number)) {
    throw Mistake(node.place, fmt::format("{} of the limit {} is {}; it is a finite number without quotes, in the limit's unit", key, name,
                                          is_number ? std::string_view(node.text) : kind_in_words(node.kind)));
  }
  return node.number;
}

std::string text_of(const std::string& name, std::string_view key, const Node& node, std::string_view noun = "limit") {
  if (node.kind != Node::Kind::text) {
    throw Mistake(node.place, fmt::format("{} of the {} {} is {}; it is a text in quotes", key, noun, name, kind_in_words(node.kind)));
  }
  return node.text;
}

Standing standing_of(const std::string& name, const Node& node, std::string_view noun = "limit") {
  const auto words = choices<Standing>();
  const auto found = std::find(words.begin(), words.end(), std::string_view(text_of(name, "standing", node, noun)));
  if (found == words.end()) {
    throw Mistake(node.place, fmt::format("\"{}\" is no standing; allowed are measured, computed, memory, assumed, none found",
                                          for_message(node.text)));
  }
  return static_cast<Standing>(found - words.begin());
}

Limit limit_of(const std::string& name, const Entry& entry) {
  const Node& table = entry.value;
  if (table.kind != Node::Kind::table) throw Mistake(entry.place, fmt::format("{} is no table; a limit is [limits.{}]", name, name));
  for (const Entry& given : table.entries) {
    if (std::find(keys.begin(), keys.end(), std::string_view(given.key)) == keys.end()) {
      throw Mistake(given.place, fmt::format("\"{}\" is no key of a limit; allowed are first, second, unit, meaning, standing, source",
                                             for_message(given.key)));
    }
  }
  for (const std::string_view key : keys) {
    if (key != "second" && table.find(key) == nullptr) throw Mistake(entry.place, fmt::format("the limit {} has no {}", name, key));
  }
  Limit limit;
  limit.first = number_of(name, "first", *table.find("first"));
  if (const Node* second = table.find("second")) limit.second = number_of(name, "second", *second);
  limit.unit = text_of(name, "unit", *table.find("unit"));
  limit.meaning = text_of(name, "meaning", *table.find("meaning"));
  limit.standing = standing_of(name, *table.find("standing"));
  limit.source = text_of(name, "source", *table.find("source"));
  if (limit.source.empty()) throw Mistake(table.find("source")->place, fmt::format("the limit {} names no source", name));
  return limit;
}

Rule rule_of(const std::string& name, const Entry& entry) {
  const Node& table = entry.value;
  if (table.kind != Node::Kind::table) throw Mistake(entry.place, fmt::format("{} is no table; a rule is [rules.{}]", name, name));
  for (const Entry& given : table.entries) {
    if (std::find(rule_keys.begin(), rule_keys.end(), std::string_view(given.key)) == rule_keys.end()) {
      throw Mistake(given.place,
                    fmt::format("\"{}\" is no key of a rule; allowed are level, meaning, standing, source", for_message(given.key)));
    }
  }
  for (const std::string_view key : rule_keys) {
    if (table.find(key) == nullptr) throw Mistake(entry.place, fmt::format("the rule {} has no {}", name, key));
  }
  Rule rule;
  const Node& level = *table.find("level");
  const std::string word = text_of(name, "level", level, "rule");
  if (word != "fault expected" && word != "borderline") {
    throw Mistake(level.place, fmt::format("\"{}\" is no level of a rule; allowed are fault expected, borderline", for_message(word)));
  }
  rule.level = word == "borderline" ? RuleLevel::borderline : RuleLevel::fault_expected;
  rule.meaning = text_of(name, "meaning", *table.find("meaning"), "rule");
  rule.standing = standing_of(name, *table.find("standing"), "rule");
  rule.source = text_of(name, "source", *table.find("source"), "rule");
  if (rule.source.empty()) throw Mistake(table.find("source")->place, fmt::format("the rule {} names no source", name));
  return rule;
}

}  // namespace

const Limit& Limits::at(std::string_view name) const {
  const auto found = by_name.find(name);
  if (found == by_name.end()) throw std::out_of_range(fmt::format("There is no limit named {}.", name));
  return found->second;
}

const Rule& Limits::rule(std::string_view name) const {
  const auto found = rules.find(name);
  if (found == rules.end()) throw std::out_of_range(fmt::format("There is no rule named {}.", name));
  return found->second;
}

Limits read_limits(std::string_view source_name, std::string_view text) {
  const auto source = source_of(source_name, text);
  const Node root = parse_toml(source);
  const Node* format = root.find("format");
  if (format == nullptr || format->kind != Node::Kind::whole_number || format->number != 1) {
    throw Mistake(format == nullptr ? Place{source, 1, 1} : format->place, "a file of limits begins with format = 1");
  }
  for (const Entry& entry : root.entries) {
    if (entry.key != "format" && entry.key != "limits" && entry.key != "rules") {
      throw Mistake(entry.place, fmt::format("\"{}\" has no place in a file of limits; allowed are format, [limits.NAME] and [rules.NAME]",
                                             for_message(entry.key)));
    }
  }
  const Node* table = root.find("limits");
  if (table == nullptr || table->kind != Node::Kind::table) throw Mistake(Place{source, 1, 1}, "a file of limits has tables [limits.NAME]");
  Limits limits;
  for (const Entry& entry : table->entries) limits.by_name.emplace(entry.key, limit_of(entry.key, entry));
  const Node* rules = root.find("rules");
  if (rules == nullptr) return limits;
  if (rules->kind != Node::Kind::table) throw Mistake(rules->place, "rules is no table; a rule is [rules.NAME]");
  for (const Entry& entry : rules->entries) limits.rules.emplace(entry.key, rule_of(entry.key, entry));
  return limits;
}

}  // namespace heatwork::trade
