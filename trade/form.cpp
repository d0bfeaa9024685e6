#include "trade/form.h"

#include <utility>

#include "trade/alloy.h"
#include "trade/firing.h"

namespace heatwork::trade {
namespace {

constexpr std::string_view number_in = "a number in ";

/// "850 °C" is written in "°C", "1 min 30 s" in "min".
std::string unit_of(const Nature& nature) {
  if (nature.kind.starts_with(number_in)) return nature.kind.substr(number_in.size());
  if (nature.pattern.empty() || nature.example.empty() || nature.example.front() < '0' || nature.example.front() > '9') return {};
  const auto blank = nature.example.find(' ');
  if (blank == std::string::npos) return {};
  return nature.example.substr(blank + 1, nature.example.find(' ', blank + 1) - blank - 1);
}

class FormBuilder : public Fields {
 public:
  explicit FormBuilder(std::string before) : before_(std::move(before)) {}

  void value(const FieldInfo& info, Slot& slot) override {
    FormField field = begun(info, FormField::Shape::value);
    field.nature = slot.nature();
    // A place on the earth is told in metres, not as what stands on a tray.
    if (field.nature.kind == "a length" && field.nature.range.ends_with(" m")) field.nature.example = "210 m";
    field.unit = unit_of(field.nature);
    fields.push_back(std::move(field));
  }

  void group(const Group& group) override {
    group.make({});
    FormField field = begun(group.info, FormField::Shape::group);
    FormBuilder inner(field.path + ".");
    group.describe(inner);
    field.fields = std::move(inner.fields);
    fields.push_back(std::move(field));
  }

  void list(const List& list) override {
    list.add({});
    FormField field = begun(list.info, FormField::Shape::list);
    FormBuilder inner(field.path + ".");
    list.describe(inner, 0);
    field.fields = std::move(inner.fields);
    field.at_least = list.at_least;
    field.at_most = list.at_most;
    field.one = list.one.word.empty() ? std::string(list.info.key) : std::string(list.one.word);
    field.told_by = list.one.told_by;
    fields.push_back(std::move(field));
  }

  std::vector<FormField> fields;

 private:
  [[nodiscard]] FormField begun(const FieldInfo& info, FormField::Shape shape) const {
    FormField field;
    field.shape = shape;
    field.key = info.key;
    field.path = before_ + std::string(info.key);
    field.meaning = info.meaning;
    field.required = info.required;
    field.default_text = info.default_text;
    field.role = info.role;
    field.refers_to = info.refers_to;
    return field;
  }

  std::string before_;
};

}  // namespace

std::vector<FormField> form_of(Noun noun) {
  return with_type_of(noun, [&]<class T>(std::type_identity<T>) {
    T blank{};
    FormBuilder builder("");
    describe(builder, blank);
    return builder.fields;
  });
}

}  // namespace heatwork::trade
