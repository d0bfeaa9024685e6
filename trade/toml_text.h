// A TOML text as a tree of nodes in the order written, each with its place. The parser behind it is seen by one file only.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "trade/place.h"

namespace heatwork::trade {

struct Entry;

/// A value of a TOML text: a table has `entries`, a list has `items`, the others what their kind says.
struct Node {
  enum class Kind { table, list, text, whole_number, number, truth, time };
  Kind kind = Kind::table;
  Place place;
  std::string text;
  double number = 0;
  bool truth = false;
  std::vector<Entry> entries;
  std::vector<Node> items;

  /// nullptr where a table has no such key.
  [[nodiscard]] const Node* find(std::string_view key) const;
};

/// A key of a table, with its own place, and its value.
struct Entry {
  std::string key;
  Place place;
  Node value;
};

/// Largest text that is read; a file of the lab is a few kilobytes. [byte]
inline constexpr std::size_t largest_text = std::size_t{1} << 20;

/// Reads a TOML text. Errors: Mistake for text that is too long, no UTF-8 or no TOML, in words of ours.
[[nodiscard]] Node parse_toml(const std::shared_ptr<const Source>& source);

/// "a number", "a list" ...: what a node is, for a sentence.
[[nodiscard]] std::string_view kind_in_words(Node::Kind kind);

}  // namespace heatwork::trade
