#include "trade/relaxation.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "trade/choice.h"
#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/shipped.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

constexpr std::string_view folder = "relaxation/";
constexpr std::array<std::string_view, 6> keys{"name", "meaning", "standing", "source", "shear", "structure"};
/// A list of numbers as printed may miss 1 by its rounding.
constexpr double shares_close = 0.01;

const Node& wanted(const Entry& table, std::string_view key, Node::Kind kind) {
  const Node* found = table.value.find(key);
  if (found == nullptr) throw Mistake(table.place, fmt::format("a relaxation has no {}; it has {}", key, fmt::join(keys, ", ")));
  if (found->kind != kind)
    throw Mistake(found->place, fmt::format("{} of a relaxation is {}; it is {}", key, kind_in_words(found->kind), kind_in_words(kind)));
  return *found;
}

std::string text_of(const Entry& table, std::string_view key) {
  const Node& node = wanted(table, key, Node::Kind::text);
  if (node.text.empty()) throw Mistake(node.place, fmt::format("{} of a relaxation is empty", key));
  return node.text;
}

double above_nothing(const Node& node, std::string_view key) {
  const bool is_number = node.kind == Node::Kind::number || node.kind == Node::Kind::whole_number;
  if (is_number && std::isfinite(node.number) && node.number > 0) return node.number;
  throw Mistake(node.place, fmt::format("{} of a relaxation holds {}; it holds pairs [share, seconds] of numbers above 0", key,
                                        is_number ? std::string_view(node.text) : kind_in_words(node.kind)));
}

Relaxation::Terms terms_of(const Entry& table, std::string_view key) {
  const Node& list = wanted(table, key, Node::Kind::list);
  Relaxation::Terms terms;
  double sum = 0;
  for (const Node& pair : list.items) {
    if (pair.kind != Node::Kind::list || pair.items.size() != 2)
      throw Mistake(pair.place, fmt::format("{} of a relaxation holds pairs [share, seconds]", key));
    terms.emplace_back(above_nothing(pair.items[0], key), above_nothing(pair.items[1], key));
    sum += terms.back().first;
  }
  if (!(std::abs(sum - 1) <= shares_close))
    throw Mistake(list.place, fmt::format("the shares of {} make {:.4g} together; they make 1", key, sum));
  return terms;
}

Standing standing_of(const Entry& table) {
  const Node& node = wanted(table, "standing", Node::Kind::text);
  const auto words = choices<Standing>();
  const auto found = std::find(words.begin(), words.end(), std::string_view(node.text));
  if (found != words.end()) return static_cast<Standing>(found - words.begin());
  throw Mistake(node.place,
                fmt::format("\"{}\" is no standing; allowed are measured, computed, memory, assumed, none found", for_message(node.text)));
}

std::vector<Relaxation> read_shipped() {
  std::vector<Relaxation> all;
  for (const ShippedFile& file : shipped_files())
    if (file.path.starts_with(folder)) all.push_back(read_relaxation(fmt::format("shipped:{}", file.path), file.text));
  return all;
}

const std::vector<Relaxation>& shipped() {
  static const std::vector<Relaxation> all = read_shipped();
  return all;
}

}  // namespace

Relaxation read_relaxation(std::string_view source_name, std::string_view text) {
  const auto source = source_of(source_name, text);
  const Node root = parse_toml(source);
  const Node* format = root.find("format");
  if (format == nullptr || format->kind != Node::Kind::whole_number || format->number != 1)
    throw Mistake(format == nullptr ? Place{source, 1, 1} : format->place, "a file of a relaxation begins with format = 1");
  const Entry* table = nullptr;
  for (const Entry& entry : root.entries) {
    if (entry.key == "relaxation" && entry.value.kind == Node::Kind::table) {
      table = &entry;
    } else if (entry.key != "format") {
      throw Mistake(entry.place, fmt::format("\"{}\" has no place in a file of a relaxation; allowed are format and [relaxation]",
                                             for_message(entry.key)));
    }
  }
  if (table == nullptr) throw Mistake(Place{source, 1, 1}, "a file of a relaxation has the table [relaxation]");
  for (const Entry& given : table->value.entries)
    if (std::find(keys.begin(), keys.end(), std::string_view(given.key)) == keys.end())
      throw Mistake(given.place,
                    fmt::format("\"{}\" is no key of a relaxation; allowed are {}", for_message(given.key), fmt::join(keys, ", ")));
  return {text_of(*table, "name"),   text_of(*table, "meaning"), standing_of(*table),
          text_of(*table, "source"), terms_of(*table, "shear"),  terms_of(*table, "structure")};
}

const std::vector<std::string>& relaxation_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const Relaxation& one : shipped()) all.push_back(one.name);
    std::sort(all.begin(), all.end());
    return all;
  }();
  return names;
}

const Relaxation* relaxation(std::string_view name) {
  const auto found = std::find_if(shipped().begin(), shipped().end(), [&](const Relaxation& one) { return one.name == name; });
  return found == shipped().end() ? nullptr : &*found;
}

}  // namespace heatwork::trade
