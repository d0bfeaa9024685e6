#include "trade/keyed_values.h"

#include <fmt/format.h>

#include <utility>

#include "trade/field.h"

namespace heatwork::trade {
namespace {

/// A literal of a file as an edit takes it: "a \"b\"" without its quotes, ["x", "y"] as x, y, with what stands between the items there.
std::string plain(std::string_view literal, char between) {
  std::string out;
  bool quoted = false;
  for (std::size_t i = 0; i < literal.size(); ++i) {
    const char c = literal[i];
    if (c == '"') {
      quoted = !quoted;
    } else if (quoted && c == '\\' && i + 1 < literal.size()) {
      const char next = literal[++i];
      if (next == 'u' && i + 4 < literal.size()) {  // control characters alone are written so, see in_quotes
        out += static_cast<char>(std::stoi(std::string(literal.substr(i + 1, 4)), nullptr, 16));
        i += 4;
      } else {
        out += next == 'n' ? '\n' : next;
      }
    } else if (quoted || (c != '[' && c != ']')) {
      out += !quoted && c == ',' ? between : c;
    }
  }
  return out;
}

class ValueList : public Fields {
 public:
  ValueList(std::vector<KeyedValue>& values, std::string before) : values_(values), before_(std::move(before)) {}

  void value(const FieldInfo& info, Slot& slot) override {
    if (!slot.present()) return;
    KeyedValue one{before_ + std::string(info.key), slot.typed(), plain(slot.literal(), slot.nature().between), slot.si()};
    if (one.typed.empty()) one.typed = one.text;
    values_.push_back(std::move(one));
  }
  void group(const Group& group) override {
    if (!group.present()) return;
    ValueList inner(values_, fmt::format("{}{}.", before_, group.info.key));
    group.describe(inner);
  }
  void list(const List& list) override {
    for (std::size_t i = 0; i < list.size(); ++i) {
      ValueList inner(values_, fmt::format("{}{}[{}].", before_, list.info.key, i + 1));
      list.describe(inner, i);
    }
  }

 private:
  std::vector<KeyedValue>& values_;
  std::string before_;
};

}  // namespace

template <class T>
std::vector<KeyedValue> keyed_values(const T& noun) {
  T copy = noun;
  std::vector<KeyedValue> values;
  ValueList list(values, "");
  describe(list, copy);
  return values;
}

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) template std::vector<KeyedValue> keyed_values<type>(const type&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

}  // namespace heatwork::trade
