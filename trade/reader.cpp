#include "trade/reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "quantity/read.h"
#include "trade/field.h"
#include "trade/mistake.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

constexpr double newest_format = 1;

/// The keys a table may have, by its field table.
class KeyList : public Fields {
 public:
  void value(const FieldInfo& info, Slot&) override { keys.emplace_back(info.key); }
  void group(const Group& group) override { keys.emplace_back(group.info.key); }
  void list(const List& list) override { keys.emplace_back(list.info.key); }
  std::vector<std::string> keys;
};

std::string unknown_key(std::string_view key, std::string_view path, const std::vector<std::string>& known) {
  const std::string near = quantity::near_miss(key, known);
  if (!near.empty()) return fmt::format("\"{}\" is not known in [{}]; did you mean \"{}\"?", for_message(key), path, near);
  if (known.size() > 20)
    return fmt::format("\"{}\" is not known in [{}]; the {} allowed keys stand in its format page", for_message(key), path, known.size());
  return fmt::format("\"{}\" is not known in [{}]; allowed are {}", for_message(key), path, fmt::join(known, ", "));
}

/// A name as files of that kind bear it.
std::string_view usual_name(Noun noun) {
  static constexpr std::array<std::string_view, noun_words.size()> names{
      "first-dentine",     "dentine-sheet", "window",    "light",          "pins",  "zirconia-veneer", "water",
      "crown-16",          "monday",        "palladium", "dentine-jar",    "k-417", "crown-16-built",  "window-wire",
      "silver-wire-spool", "late",          "hs",        "furnace-window", "lab"};
  return names[static_cast<std::size_t>(noun)];
}

/// ", such as key = value", or nothing where no example says more.
std::string such_as(const FieldInfo& info, const Nature& nature) {
  const std::string_view example = info.role == Role::reference ? usual_name(info.refers_to) : std::string_view(nature.example);
  if (example.empty()) return {};
  const bool is_list = nature.type == Nature::Type::texts;
  const std::string_view quote = is_list || nature.type == Nature::Type::text ? "\"" : "";
  return fmt::format(", such as {} = {}{}{}{}{}", info.key, is_list ? "[" : "", quote, example, quote, is_list ? "]" : "");
}

/// Every mistake that was met, and which key stands where.
struct Met {
  std::vector<KeyMistake> mistakes;
  std::vector<std::pair<Place, std::string>> keys;
};

/// Fills a noun from one table of the file. With `met` a mistake is noted and reading goes on; without, it is thrown.
class TableReader : public Fields {
 public:
  TableReader(const Node& table, std::string path, const ReadingContext& context, Met* met = nullptr, std::string keys_before = {})
      : table_(table), path_(std::move(path)), context_(context), met_(met), keys_before_(std::move(keys_before)) {}

  /// Refuses unknown keys, then reads every field of `describe` in the order of the field table.
  void read(const std::function<void(Fields&)>& describe) {
    KeyList known;
    describe(known);
    for (const auto& entry : table_.entries)
      if (std::find(known.keys.begin(), known.keys.end(), entry.key) == known.keys.end())
        wrong(entry.key, entry.place, unknown_key(entry.key, path_, known.keys));
    describe(*this);
  }

  void value(const FieldInfo& info, Slot& slot) override {
    const Node* node = table_.find(info.key);
    if (node == nullptr) {
      fill_without(info, slot);
      return;
    }
    if (met_ != nullptr) met_->keys.emplace_back(node->place, keys_before_ + std::string(info.key));
    const auto mistake = slot.take(*node, {context_.ambient});
    if (mistake) wrong(info.key, node->place, fmt::format("{}: {}", info.key, *mistake));
  }

  void group(const Group& group) override {
    const Node* node = table_.find(group.info.key);
    const std::string path = fmt::format("{}.{}", path_, group.info.key);
    if (node == nullptr) {
      if (group.info.required)
        return wrong(group.info.key, table_.place, fmt::format("[{}] lacks the table [{}]: {}", path_, path, group.info.meaning));
      if (!group.present()) return;
      Node empty;
      empty.place = table_.place;
      inner(empty, path, group.info.key).read(group.describe);
      return;
    }
    if (node->kind != Node::Kind::table)
      return wrong(group.info.key, node->place,
                   fmt::format("{}: {} stands here; allowed is a table [{}]", group.info.key, kind_in_words(node->kind), path));
    group.make(node->place);
    inner(*node, path, group.info.key).read(group.describe);
  }

  void list(const List& list) override {
    const Node* node = table_.find(list.info.key);
    const std::string path = fmt::format("{}.{}", path_, list.info.key);
    if (node == nullptr) {
      if (list.at_least > 0) wrong(list.info.key, table_.place, fmt::format("[{}] lacks [[{}]]: {}", path_, path, list.info.meaning));
      return;
    }
    if (const auto mistake = not_so_many(list, *node, path)) return wrong(list.info.key, mistake->first, mistake->second);
    for (std::size_t i = 0; i < node->items.size(); ++i) {
      const Node& item = node->items[i];
      const std::string key = fmt::format("{}[{}]", list.info.key, i + 1);
      if (item.kind != Node::Kind::table) return wrong(key, item.place, not_tables(list, item, path));
      list.add(item.place);
      inner(item, path, key).read([&](Fields& fields) { list.describe(fields, i); });
    }
  }

  void ambient_at(const Given<quantity::Length>& altitude) override {
    if (!context_.ambient && context_.ambient_of_altitude != nullptr) context_.ambient = context_.ambient_of_altitude(altitude.value);
  }

 private:
  void wrong(std::string_view key, const Place& place, const std::string& sentence) const {
    if (met_ == nullptr) throw Mistake(place, sentence);
    met_->mistakes.push_back({keys_before_ + std::string(key), Mistake(place, sentence)});
  }

  TableReader inner(const Node& table, std::string path, std::string_view key) const {
    return {table, std::move(path), context_, met_, fmt::format("{}{}.", keys_before_, key)};
  }

  static std::string not_tables(const List& list, const Node& node, std::string_view path) {
    return fmt::format("{}: {} stands here; allowed is a list of tables, each written [[{}]]", list.info.key, kind_in_words(node.kind),
                       path);
  }

  static std::optional<std::pair<Place, std::string>> not_so_many(const List& list, const Node& node, std::string_view path) {
    if (node.kind != Node::Kind::list) return {{node.place, not_tables(list, node, path)}};
    if (node.items.size() < list.at_least)
      return {
          {node.place, fmt::format("{}: the list is empty; at least {} is needed, written [[{}]]", list.info.key, list.at_least, path)}};
    if (node.items.size() > list.at_most)
      return {{node.items[list.at_most].place,
               fmt::format("{}: {} are written; allowed are {}", list.info.key, node.items.size(), list.at_most)}};
    return std::nullopt;
  }

  void fill_without(const FieldInfo& info, Slot& slot) const {
    if (info.required)
      return wrong(info.key, table_.place, fmt::format("[{}] lacks {}: {}{}", path_, info.key, info.meaning, such_as(info, slot.nature())));
    if (info.default_text.empty()) return;
    const auto mistake = slot.take(default_node(info.default_text, slot.nature().type), {});
    if (mistake) throw std::logic_error(fmt::format("the default of {} cannot be read: {}", info.key, *mistake));
  }

  /// A default as a node without a place, so that results can name it as a default.
  static Node default_node(const std::string& text, Nature::Type type) {
    Node node;
    node.text = text;
    node.kind = Node::Kind::text;
    if (type == Nature::Type::truth) {
      node.kind = Node::Kind::truth;
      node.truth = text == "true";
    } else if (type == Nature::Type::number || type == Nature::Type::whole_number) {
      node.kind = type == Nature::Type::number ? Node::Kind::number : Node::Kind::whole_number;
      node.number = quantity::read_number(text, "a default").value();
    }
    return node;
  }

  const Node& table_;
  std::string path_;
  ReadingContext context_;
  Met* met_;
  std::string keys_before_;
};

void check_format(const Node& root) {
  const Node* format = root.find("format");
  if (format == nullptr) throw Mistake(root.place, "the file lacks its first line, format = 1");
  if (format->kind != Node::Kind::whole_number || format->number < 1)
    throw Mistake(format->place, fmt::format("format: {} stands here; allowed is format = 1",
                                             format->text.empty() || format->kind == Node::Kind::text ? kind_in_words(format->kind)
                                                                                                      : std::string_view(format->text)));
  if (format->number > newest_format)
    throw Mistake(format->place, fmt::format("format: {} is newer than what is read here; allowed is 1", format->text));
}

/// The one noun of a file.
const Entry& noun_entry(const Node& root) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < noun_words.size(); ++i) known.push_back(table_key(static_cast<Noun>(i)));
  const Entry* found = nullptr;
  for (const auto& entry : root.entries) {
    if (entry.key == "format") continue;
    const auto noun = noun_of_table(entry.key);
    if (!noun) {
      const std::string near = quantity::near_miss(entry.key, known);
      throw Mistake(entry.place, near.empty() ? fmt::format("\"{}\" is no kind of file; allowed is one of {}, written as [program]",
                                                            for_message(entry.key), fmt::join(known, ", "))
                                              : fmt::format("\"{}\" is no kind of file; did you mean [{}]?", for_message(entry.key), near));
    }
    if (found != nullptr)
      throw Mistake(entry.place, fmt::format("the file holds {} already; {} goes into a file of its own",
                                             with_article(*noun_of_table(found->key)), with_article(*noun)));
    found = &entry;
  }
  if (found == nullptr)
    throw Mistake(root.place, fmt::format("the file holds nothing; allowed is one of {}, written as [program]", fmt::join(known, ", ")));
  if (found->value.kind != Node::Kind::table)
    throw Mistake(found->value.place,
                  fmt::format("{}: {} stands here; allowed is one table [{}]", found->key, kind_in_words(found->value.kind), found->key));
  return *found;
}

Mistake another_noun(const Entry& entry, Noun held, Noun wanted) {
  return {entry.place, fmt::format("the file holds {}; {} is wanted here", with_article(held), with_article(wanted))};
}

template <class T>
T read_entry(const Entry& entry, const ReadingContext& context) {
  T noun{};
  noun.place = entry.value.place;
  TableReader(entry.value, entry.key, context).read([&](Fields& fields) { describe(fields, noun); });
  check(noun);
  return noun;
}

}  // namespace

std::shared_ptr<const Source> source_of(std::string_view name, std::string_view text) {
  return std::make_shared<const Source>(Source{std::string(name), std::string(text)});
}

template <class T>
T read_noun(const std::shared_ptr<const Source>& source, const ReadingContext& context) {
  const Node root = parse_toml(source);
  check_format(root);
  const Entry& entry = noun_entry(root);
  if (const Noun held = *noun_of_table(entry.key); held != NounOf<T>::noun) throw another_noun(entry, held, NounOf<T>::noun);
  return read_entry<T>(entry, context);
}

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  template type read_noun<type>(const std::shared_ptr<const Source>&, const ReadingContext&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

Noun read_any(const std::shared_ptr<const Source>& source, const ReadingContext& context) {
  const Node root = parse_toml(source);
  check_format(root);
  const Entry& entry = noun_entry(root);
  const Noun noun = *noun_of_table(entry.key);
  with_type_of(noun, [&]<class T>(std::type_identity<T>) { (void)read_entry<T>(entry, context); });
  return noun;
}

namespace {

/// The key of the value that stands at a place; empty where none does.
std::string key_at(const Met& met, const Place& place) {
  for (const auto& [where, key] : met.keys)
    if (where.line == place.line && where.column == place.column) return key;
  return {};
}

template <class T>
std::vector<KeyMistake> mistakes_of_entry(const Entry& entry, const ReadingContext& context) {
  T noun{};
  noun.place = entry.value.place;
  Met met;
  TableReader(entry.value, entry.key, context, &met).read([&](Fields& fields) { describe(fields, noun); });
  if (!met.mistakes.empty()) return met.mistakes;
  try {
    check(noun);
  } catch (const Mistake& mistake) {
    return {{key_at(met, mistake.place()), mistake}};
  }
  return {};
}

}  // namespace

std::vector<KeyMistake> all_mistakes(Noun noun, const std::shared_ptr<const Source>& source, const ReadingContext& context) {
  try {
    const Node root = parse_toml(source);
    check_format(root);
    const Entry& entry = noun_entry(root);
    if (const Noun held = *noun_of_table(entry.key); held != noun) return {{"", another_noun(entry, held, noun)}};
    return with_type_of(noun, [&]<class T>(std::type_identity<T>) { return mistakes_of_entry<T>(entry, context); });
  } catch (const Mistake& mistake) {
    return {{"", mistake}};
  }
}

std::optional<Heading> heading_of(const std::shared_ptr<const Source>& source) {
  const Node root = parse_toml(source);
  if (root.find("format") == nullptr) return std::nullopt;
  for (const auto& entry : root.entries) {
    const auto noun = noun_of_table(entry.key);
    if (!noun || entry.value.kind != Node::Kind::table) continue;
    const Node* name = entry.value.find("name");
    if (name != nullptr && name->kind == Node::Kind::text) return Heading{*noun, name->text};
  }
  return std::nullopt;
}

}  // namespace heatwork::trade
