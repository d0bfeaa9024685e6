#include "trade/writer.h"

#include <fmt/format.h>

#include "trade/field.h"

namespace heatwork::trade {
namespace {

/// Values of a table first, then the tables in it, as TOML wants them.
class FileWriter : public Fields {
 public:
  FileWriter(std::string path, bool on_one_line) : path_(std::move(path)), on_one_line_(on_one_line) {}

  void value(const FieldInfo& info, Slot& slot) override {
    if (!slot.present()) return;
    if (on_one_line_ && !values_.empty()) values_ += ", ";
    values_ += fmt::format("{} = {}", info.key, slot.literal());
    if (!on_one_line_) values_ += "\n";
  }

  void group(const Group& group) override {
    if (!group.present()) return;
    FileWriter inner(fmt::format("{}.{}", path_, group.info.key), group.on_one_line);
    group.describe(inner);
    if (inner.empty()) return;
    if (group.on_one_line) {
      values_ += fmt::format("{} = {{ {} }}\n", group.info.key, inner.values_);
    } else {
      tables_ += fmt::format("\n[{}]\n{}{}", inner.path_, inner.values_, inner.tables_);
    }
  }

  void list(const List& list) override {
    for (std::size_t i = 0; i < list.size(); ++i) {
      FileWriter inner(fmt::format("{}.{}", path_, list.info.key), false);
      list.describe(inner, i);
      tables_ += fmt::format("\n[[{}]]\n{}{}", inner.path_, inner.values_, inner.tables_);
    }
  }

  [[nodiscard]] bool empty() const { return values_.empty() && tables_.empty(); }
  [[nodiscard]] std::string text() const { return fmt::format("format = 1\n\n[{}]\n{}{}", path_, values_, tables_); }

 private:
  std::string path_;
  bool on_one_line_;
  std::string values_;
  std::string tables_;
};

}  // namespace

template <class T>
std::string write_noun(const T& noun) {
  T copy = noun;
  FileWriter writer(table_key(NounOf<T>::noun), false);
  describe(writer, copy);
  return writer.text();
}

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) template std::string write_noun<type>(const type&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

}  // namespace heatwork::trade
