#include "trade/difference.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "trade/field.h"

namespace heatwork::trade {
namespace {

std::string spelled_out(std::string_view key) {
  std::string words(key);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

/// A text in quotes as people read it; the rest as it is.
std::string without_quotes(const std::string& literal) {
  if (literal.size() < 2 || literal.front() != '"' || literal.back() != '"') return literal;
  std::string text;
  for (std::size_t i = 1; i + 1 < literal.size(); ++i) {
    const bool escaped = literal[i] == '\\' && (literal[i + 1] == '"' || literal[i + 1] == '\\');
    text += literal[escaped ? ++i : i];
  }
  return text;
}

struct Value {
  std::string key;
  std::string text;  ///< empty: not there
};

/// A table with what stands in it, in the order of the field table.
struct Part {
  std::string key;    ///< "heating[2]"
  std::string words;  ///< "heating stage 2"
  bool present = true;
  std::vector<Value> values;
  std::vector<Part> parts;

  [[nodiscard]] std::string text() const {
    std::string all;
    const auto add = [&](const std::string& one) { all += (all.empty() ? "" : ", ") + one; };
    for (const Value& value : values)
      if (!value.text.empty()) add(fmt::format("{} {}", spelled_out(value.key), value.text));
    for (const Part& part : parts)
      if (part.present) add(fmt::format("{} ({})", part.words, part.text()));
    return all;
  }
};

class TreeOf : public Fields {
 public:
  void value(const FieldInfo& info, Slot& slot) override {
    root.values.push_back({std::string(info.key), slot.present() ? without_quotes(slot.literal()) : ""});
    order.push_back(Kind::value);
  }

  void group(const Group& group) override {
    TreeOf inner;
    if (group.present()) group.describe(inner);
    inner.root.key = group.info.key;
    inner.root.words = spelled_out(group.info.key);
    inner.root.present = group.present();
    root.parts.push_back(inner.root);
    trees.push_back(std::move(inner));
    order.push_back(Kind::group);
  }

  void list(const List& list) override {
    std::vector<TreeOf> items;
    std::set<std::string> names;
    const std::string one = list.one.word.empty() ? spelled_out(list.info.key) : std::string(list.one.word);
    for (std::size_t i = 0; i < list.size(); ++i) {
      TreeOf item;
      list.describe(item, i);
      item.root.key = fmt::format("{}[{}]", list.info.key, i + 1);
      item.root.words = fmt::format("{} {}", one, i + 1);
      const auto told =
          std::find_if(item.root.values.begin(), item.root.values.end(), [&](const Value& value) { return value.key == list.one.told_by; });
      if (told != item.root.values.end()) {
        item.name = told->text;
        item.root.words = fmt::format("{} {}", one, told->text);
        names.insert(told->text);
      }
      root.parts.push_back(item.root);
      items.push_back(std::move(item));
    }
    lists.push_back({one, std::string(list.info.key), std::move(items), names.size() == list.size()});
    order.push_back(Kind::list);
  }

  struct ListOf {
    std::string one, key;
    std::vector<TreeOf> items;
    bool told = false;  ///< each has a name of its own; an empty list can be told from any
  };
  enum class Kind { value, group, list };

  Part root;
  std::string name;  ///< of an item that is told by it
  std::vector<Kind> order;
  std::vector<TreeOf> trees;  ///< of the groups
  std::vector<ListOf> lists;
};

/// Where in the noun: what stands before a key, and before its words.
struct At {
  std::string before, words;
  [[nodiscard]] At in(const Part& part) const { return {before + part.key + ".", fmt::format("{}{}, ", words, part.words)}; }
};

class Comparing {
 public:
  void trees(const TreeOf& before, const TreeOf& after, const At& at) {
    std::size_t values = 0, groups = 0, lists_seen = 0;
    for (const TreeOf::Kind kind : before.order) {
      if (kind == TreeOf::Kind::value) {
        value(before.root.values[values], after.root.values[values], at);
        ++values;
      } else if (kind == TreeOf::Kind::group) {
        part(before.trees[groups], after.trees[groups], at);
        ++groups;
      } else {
        lists(before.lists[lists_seen], after.lists[lists_seen], at);
        ++lists_seen;
      }
    }
  }

  std::vector<Difference> found;

 private:
  void value(const Value& before, const Value& after, const At& at) {
    if (before.text != after.text) found.push_back({at.before + before.key, at.words + spelled_out(before.key), before.text, after.text});
  }

  void whole(const Part& part, bool added, const At& at) {
    const std::string text = part.text();
    found.push_back({at.before + part.key, at.words + part.words, added ? "" : text, added ? text : ""});
  }

  void part(const TreeOf& before, const TreeOf& after, const At& at) {
    if (before.root.present && after.root.present) {
      trees(before, after, at.in(after.root));
    } else if (before.root.present != after.root.present) {
      whole(after.root.present ? after.root : before.root, after.root.present, at);
    }
  }

  void lists(const TreeOf::ListOf& before, const TreeOf::ListOf& after, const At& at) {
    before.told&& after.told ? by_name(before, after, at) : by_place(before, after, at);
  }

  static const TreeOf* named(const TreeOf::ListOf& list, const std::string& name) {
    const auto same = std::find_if(list.items.begin(), list.items.end(), [&](const TreeOf& item) { return item.name == name; });
    return same == list.items.end() ? nullptr : &*same;
  }

  void by_name(const TreeOf::ListOf& before, const TreeOf::ListOf& after, const At& at) {
    std::vector<std::string> order_before, order_after;
    for (const TreeOf& item : before.items) {
      const TreeOf* same = named(after, item.name);
      if (same == nullptr) {
        whole(item.root, false, at);
        continue;
      }
      order_before.push_back(item.name);
      trees(item, *same, at.in(same->root));
    }
    for (const TreeOf& item : after.items) {
      if (named(before, item.name) == nullptr)
        whole(item.root, true, at);
      else
        order_after.push_back(item.name);
    }
    if (order_before != order_after)
      found.push_back({at.before + before.key, fmt::format("{}order of each {}", at.words, before.one),
                       fmt::format("{}", fmt::join(order_before, ", ")), fmt::format("{}", fmt::join(order_after, ", "))});
  }

  /// What both begin and end with is alike; of what stands between, each is held against the one in its place.
  void by_place(const TreeOf::ListOf& before, const TreeOf::ListOf& after, const At& at) {
    const auto same = [](const TreeOf& one, const TreeOf& other) { return one.root.text() == other.root.text(); };
    std::size_t from = 0, end_before = before.items.size(), end_after = after.items.size();
    while (from < end_before && from < end_after && same(before.items[from], after.items[from])) ++from;
    while (end_before > from && end_after > from && same(before.items[end_before - 1], after.items[end_after - 1])) {
      --end_before;
      --end_after;
    }
    for (std::size_t i = from; i < std::max(end_before, end_after); ++i) {
      if (i >= end_after)
        whole(before.items[i].root, false, at);
      else if (i >= end_before)
        whole(after.items[i].root, true, at);
      else
        trees(before.items[i], after.items[i], at.in(after.items[i].root));
    }
  }
};

}  // namespace

template <class T>
std::vector<Difference> difference(const T& before, const T& after) {
  T one = before, other = after;
  TreeOf before_tree, after_tree;
  describe(before_tree, one);
  describe(after_tree, other);
  Comparing comparing;
  comparing.trees(before_tree, after_tree, {});
  return std::move(comparing.found);
}

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) template std::vector<Difference> difference<type>(const type&, const type&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

namespace {

std::string sentence_of(const std::string& where, const std::string& before, const std::string& after, const Words& words) {
  if (before.empty()) return words.say("difference.added", {{"where", where}, {"after", after}});
  if (after.empty()) return words.say("difference.taken_away", {{"where", where}, {"before", before}});
  return words.say("difference.instead", {{"where", where}, {"before", before}, {"after", after}});
}

}  // namespace

std::string in_words(const Difference& difference) {
  return sentence_of(difference.where, difference.before, difference.after, words_of(Language::english));
}

}  // namespace heatwork::trade
