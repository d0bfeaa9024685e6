#include "trade/edit.h"

#include <fmt/format.h>

#include <algorithm>

#include "quantity/read.h"
#include "trade/field.h"
#include "trade/mistake.h"
#include "trade/slot.h"
#include "trade/writer.h"

namespace heatwork::trade {
namespace {

std::string without_blanks(std::string_view text) {
  const auto first = text.find_first_not_of(" \t"), last = text.find_last_not_of(" \t");
  return first == std::string_view::npos ? "" : std::string(text.substr(first, last - first + 1));
}

std::string list_of(const std::string& typed, bool quoted, char between = ',') {
  std::string out;
  for (std::size_t at = 0; at <= typed.size();) {
    const std::size_t end = std::min(typed.find(between, at), typed.size());
    const std::string item = without_blanks(std::string_view(typed).substr(at, end - at));
    if (!item.empty()) out += fmt::format("{}{}", out.empty() ? "" : ", ", quoted ? in_quotes(item) : item);
    at = end + 1;
  }
  return fmt::format("[{}]", out);
}

/// A typed value as a file has it. What cannot be one stands in quotes, so that the reader says what it must be.
std::string as_literal(const std::string& typed, const Nature& nature) {
  const bool is_plain = !typed.empty() && typed.find_first_not_of("+-.0123456789eE") == std::string::npos;
  switch (nature.type) {
    case Nature::Type::truth:
      return typed == "true" || typed == "false" ? typed : in_quotes(typed);
    case Nature::Type::number:
    case Nature::Type::whole_number:
      return is_plain ? typed : in_quotes(typed);
    case Nature::Type::whole_numbers:
      return typed.find_first_not_of(" ,0123456789") == std::string::npos ? list_of(typed, false) : in_quotes(typed);
    case Nature::Type::texts:
      return list_of(typed, true, nature.between);
    case Nature::Type::text:
      break;
  }
  return in_quotes(typed);
}

/// An edit, and whether a key was found for it.
struct Tracked {
  Edit edit;
  bool met = false;
};

/// What all tables of one noun share while they are written.
struct Editing {
  std::vector<Tracked> edits;
  std::vector<std::string> keys;  ///< there are, for near misses

  Tracked* meet(const std::string& key) {
    keys.push_back(key);
    Tracked* last = nullptr;
    for (Tracked& each : edits)
      if (each.edit.key == key) {
        each.met = true;
        last = &each;
      }
    return last;
  }
  [[nodiscard]] bool sets_below(const std::string& path) const {
    return std::any_of(edits.begin(), edits.end(),
                       [&](const Tracked& each) { return each.edit.value && each.edit.key.starts_with(path + "."); });
  }
};

/// Values of a table first, then the tables in it, as TOML wants them.
class EditedFile : public Fields {
 public:
  EditedFile(Editing& editing, std::string table, std::string keys_before, bool only_edits, bool on_one_line)
      : editing_(editing),
        table_(std::move(table)),
        keys_before_(std::move(keys_before)),
        only_edits_(only_edits),
        on_one_line_(on_one_line) {}

  void value(const FieldInfo& info, Slot& slot) override {
    const Tracked* tracked = editing_.meet(keys_before_ + std::string(info.key));
    std::string literal;
    if (tracked != nullptr) {
      if (!tracked->edit.value) return;
      literal = as_literal(*tracked->edit.value, slot.nature());
    } else if (only_edits_ || !slot.present()) {
      return;
    } else {
      literal = slot.literal();
    }
    if (on_one_line_ && !values_.empty()) values_ += ", ";
    values_ += fmt::format("{} = {}", info.key, literal);
    if (!on_one_line_) values_ += "\n";
  }

  void group(const Group& group) override {
    const std::string key = keys_before_ + std::string(group.info.key);
    const Tracked* tracked = editing_.meet(key);
    if (tracked != nullptr && tracked->edit.value)
      throw Mistake({}, fmt::format("{} is a table; set its values, such as {}.KEY", key, key));
    if (tracked != nullptr && !editing_.sets_below(key)) return;
    const bool is_new = only_edits_ || !group.present() || tracked != nullptr;
    if (is_new && !editing_.sets_below(key)) return;
    if (!group.present()) group.make({});
    EditedFile inner(editing_, fmt::format("{}.{}", table_, group.info.key), key + ".", is_new, group.on_one_line);
    group.describe(inner);
    if (inner.empty()) return;
    if (group.on_one_line)
      values_ += fmt::format("{} = {{ {} }}\n", group.info.key, inner.values_);
    else
      tables_ += fmt::format("\n[{}]\n{}{}", inner.table_, inner.values_, inner.tables_);
  }

  void list(const List& list) override {
    const std::string key = keys_before_ + std::string(list.info.key);
    const Tracked* whole = editing_.meet(key);
    if (whole != nullptr && whole->edit.value)
      throw Mistake({}, fmt::format("{} is a list of tables; set values of one of them, such as {}[1].KEY", key, key));
    const std::size_t stand = only_edits_ ? 0 : list.size();
    for (std::size_t i = 0; i < list.at_most; ++i) {
      const std::string counted = fmt::format("{}[{}]", key, i + 1);
      const bool is_new = i >= stand || whole != nullptr;
      if (is_new && !editing_.sets_below(counted)) {
        if (i >= stand) break;
        continue;
      }
      if (i >= list.size()) list.add({});
      item(list, i, is_new, counted, is_new ? "" : told(list, i, key));
    }
  }

  [[nodiscard]] bool empty() const { return values_.empty() && tables_.empty(); }
  [[nodiscard]] std::string text() const { return fmt::format("format = 1\n\n[{}]\n{}{}", table_, values_, tables_); }

 private:
  /// Finds the value that tells one of a list from the others.
  struct Told : Fields {
    explicit Told(std::string_view by) : key(by) {}
    void value(const FieldInfo& info, Slot& slot) override {
      if (info.key == key && slot.present()) name = slot.text().empty() ? slot.literal() : slot.text();
    }
    void group(const Group&) override {}
    void list(const List&) override {}
    std::string_view key;
    std::string name;
  };

  static std::string told(const List& list, std::size_t i, const std::string& key) {
    if (list.one.told_by.empty()) return "";
    Told told(list.one.told_by);
    list.describe(told, i);
    if (told.name.size() > 1 && told.name.front() == '"') told.name = told.name.substr(1, told.name.size() - 2);
    return told.name.empty() ? "" : fmt::format("{}[{}]", key, told.name);
  }

  void item(const List& list, std::size_t i, bool is_new, const std::string& counted, const std::string& by_name) {
    if (!by_name.empty())
      for (Tracked& each : editing_.edits)
        if (each.edit.key == by_name || each.edit.key.starts_with(by_name + ".")) each.edit.key.replace(0, by_name.size(), counted);
    const Tracked* tracked = editing_.meet(counted);
    if (tracked != nullptr && tracked->edit.value)
      throw Mistake({}, fmt::format("{} is a table; set its values, such as {}.KEY", counted, counted));
    if (tracked != nullptr) return;
    EditedFile inner(editing_, fmt::format("{}.{}", table_, list.info.key), counted + ".", is_new, false);
    list.describe(inner, i);
    tables_ += fmt::format("\n[[{}]]\n{}{}", inner.table_, inner.values_, inner.tables_);
  }

  Editing& editing_;
  std::string table_, keys_before_;
  bool only_edits_, on_one_line_;
  std::string values_, tables_;
};

void refuse_unmet(const Editing& editing, Noun noun) {
  for (const Tracked& each : editing.edits) {
    if (each.met) continue;
    const std::string near = quantity::near_miss(each.edit.key, editing.keys);
    throw Mistake({},
                  fmt::format("{} has no \"{}\"{}", with_article(noun), for_message(each.edit.key),
                              near.empty() ? fmt::format("; its keys stand in its format page and in \"heatwork {} show\"", file_word(noun))
                                           : fmt::format("; did you mean \"{}\"?", near)));
  }
}

template <class T>
std::string text_of(T noun, const std::vector<Edit>& edits, bool only_edits) {
  Editing editing;
  for (const Edit& edit : edits) editing.edits.push_back({edit, false});
  EditedFile file(editing, table_key(NounOf<T>::noun), "", only_edits, false);
  describe(file, noun);
  refuse_unmet(editing, NounOf<T>::noun);
  return file.text();
}

}  // namespace

template <class T>
std::string edited_text(const T& noun, const std::vector<Edit>& edits) {
  return text_of(noun, edits, false);
}

template <class T>
std::string new_text(const std::string& name, const std::vector<Edit>& edits) {
  std::vector<Edit> all{{"name", name}};
  all.insert(all.end(), edits.begin(), edits.end());
  return text_of(T{}, all, true);
}

#define HEATWORK_NOUN(type, enumerator, noun_word, folder)                       \
  template std::string edited_text<type>(const type&, const std::vector<Edit>&); \
  template std::string new_text<type>(const std::string&, const std::vector<Edit>&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

}  // namespace heatwork::trade
