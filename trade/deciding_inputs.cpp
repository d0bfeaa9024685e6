#include "trade/deciding_inputs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "trade/choice.h"
#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

constexpr std::array<std::string_view, 5> words_of{"furnace", "load", "piece", "material", "model"};
constexpr std::array<std::string_view, 3> keys_of_material{"of", "aspects", "meaning"};
constexpr std::array<std::string_view, 8> keys_of_others{"of", "aspects", "meaning", "low", "high", "unit", "standing", "source"};

const Node& wanted(const Entry& input, std::string_view key, Node::Kind kind) {
  const Node* found = input.value.find(key);
  if (found == nullptr) throw Mistake(input.place, fmt::format("the input {} has no {}", input.key, key));
  const bool number = kind == Node::Kind::number && found->kind == Node::Kind::whole_number;
  if (found->kind != kind && !number) {
    throw Mistake(found->place,
                  fmt::format("{} of the input {} is {}; it is {}", key, input.key, kind_in_words(found->kind), kind_in_words(kind)));
  }
  return *found;
}

template <class Words>
std::size_t word_of(const Entry& input, std::string_view key, const Words& allowed) {
  const Node& node = wanted(input, key, Node::Kind::text);
  const auto found = std::find(allowed.begin(), allowed.end(), std::string_view(node.text));
  if (found != allowed.end()) return static_cast<std::size_t>(found - allowed.begin());
  throw Mistake(node.place, fmt::format("{}: \"{}\" is not known; allowed are {}", key, for_message(node.text),
                                        fmt::join(allowed.begin(), allowed.end(), ", ")));
}

double change_of(const Entry& input, std::string_view key, int sign) {
  const Node& node = wanted(input, key, Node::Kind::number);
  if (std::isfinite(node.number) && sign * node.number > 0) return node.number;
  throw Mistake(node.place,
                fmt::format("{} of the input {} is {}; it is a number {} 0", key, input.key, node.number, sign > 0 ? "above" : "below"));
}

std::vector<std::string> aspects_of(const Entry& input) {
  std::vector<std::string> aspects;
  for (const Node& item : wanted(input, "aspects", Node::Kind::list).items) {
    if (item.kind != Node::Kind::text)
      throw Mistake(item.place, fmt::format("aspects of the input {} holds {}; it holds texts", input.key, kind_in_words(item.kind)));
    aspects.push_back(item.text);
  }
  return aspects;
}

DecidingInput input_of(const Entry& entry) {
  if (entry.value.kind != Node::Kind::table)
    throw Mistake(entry.place, fmt::format("{} is no table; an input is [inputs.{}]", for_message(entry.key), for_message(entry.key)));
  DecidingInput input;
  input.name = entry.key;
  input.of = static_cast<InputOf>(word_of(entry, "of", words_of));
  const bool of_material = input.of == InputOf::material;
  const std::vector<std::string_view> keys = of_material ? std::vector<std::string_view>(keys_of_material.begin(), keys_of_material.end())
                                                         : std::vector<std::string_view>(keys_of_others.begin(), keys_of_others.end());
  for (const Entry& given : entry.value.entries) {
    if (std::find(keys.begin(), keys.end(), std::string_view(given.key)) == keys.end())
      throw Mistake(given.place, fmt::format("\"{}\" is no key of an input of the {}; allowed are {}", for_message(given.key),
                                             words_of[static_cast<std::size_t>(input.of)], fmt::join(keys, ", ")));
  }
  input.aspects = aspects_of(entry);
  input.meaning = wanted(entry, "meaning", Node::Kind::text).text;
  if (of_material) return input;
  input.low = change_of(entry, "low", -1);
  input.high = change_of(entry, "high", 1);
  input.unit = wanted(entry, "unit", Node::Kind::text).text;
  input.standing = static_cast<Standing>(word_of(entry, "standing", choices<Standing>()));
  input.source = wanted(entry, "source", Node::Kind::text).text;
  if (input.source.empty()) throw Mistake(entry.value.find("source")->place, fmt::format("the input {} names no source", input.name));
  return input;
}

}  // namespace

bool DecidingInput::decides(std::string_view aspect) const {
  return std::find(aspects.begin(), aspects.end(), aspect) != aspects.end();
}

DecidingInputs read_deciding_inputs(std::string_view source_name, std::string_view text) {
  const auto source = source_of(source_name, text);
  const Node root = parse_toml(source);
  const Node* format = root.find("format");
  if (format == nullptr || format->kind != Node::Kind::whole_number || format->number != 1)
    throw Mistake(format == nullptr ? Place{source, 1, 1} : format->place, "a file of inputs begins with format = 1");
  for (const Entry& entry : root.entries) {
    if (entry.key != "format" && entry.key != "inputs")
      throw Mistake(entry.place,
                    fmt::format("\"{}\" has no place in a file of inputs; allowed are format and [inputs.NAME]", for_message(entry.key)));
  }
  const Node* table = root.find("inputs");
  if (table == nullptr || table->kind != Node::Kind::table) throw Mistake(Place{source, 1, 1}, "a file of inputs has tables [inputs.NAME]");
  DecidingInputs inputs;
  for (const Entry& entry : table->entries) inputs.push_back(input_of(entry));
  return inputs;
}

}  // namespace heatwork::trade
