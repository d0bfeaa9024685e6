#include "desk/lab/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "quantity/people_write.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/field_words.h"
#include "trade/form.h"

namespace heatwork::desk {
namespace {

using report::TemperatureScale;
using trade::FormField;
using trade::Nature;

std::string with_blanks(std::string text) {
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

/// Says fields to one reader.
class Teller {
 public:
  Teller(trade::Noun noun, trade::Language language, TemperatureScale units)
      : words_(trade::words_of(language)), noun_(noun), units_(units), mark_(words_.say("language.decimal_mark").front()) {}

  [[nodiscard]] std::string said(const std::string& key, const std::string& otherwise) const {
    return words_.has(key) ? words_.say(key) : otherwise;
  }
  [[nodiscard]] std::string called() const { return trade::noun_in(words_, noun_); }
  [[nodiscard]] Json field(const FormField& field) const {
    JsonObject json{{"key", field.key},
                    {"label", of(field, "label", with_blanks(field.key))},
                    {"meaning", of(field, "meaning", field.meaning)},
                    {"type", type_of(field)},
                    {"required", field.required},
                    {"for_people", field.role == trade::Role::for_people}};
    const bool refers = field.role == trade::Role::reference;
    json.push_back({"refers_to", refers ? Json(trade::file_word(field.refers_to)) : Json()});
    if (field.shape == FormField::Shape::value)
      add_value(field, json);
    else
      add_inner(field, json);
    return json;
  }

 private:
  [[nodiscard]] std::string of(const FormField& field, std::string_view what, const std::string& otherwise) const {
    return trade::field_word(words_, noun_, field.path, what).value_or(otherwise);
  }

  static std::string_view type_of(const FormField& field) {
    if (field.shape == FormField::Shape::group) return "group";
    if (field.shape == FormField::Shape::list) return "list";
    switch (field.nature.type) {
      case Nature::Type::whole_number:
        return "whole number";
      case Nature::Type::number:
        return "number";
      case Nature::Type::truth:
        return "truth";
      case Nature::Type::whole_numbers:
        return "list of numbers";
      case Nature::Type::texts:
        return "list of texts";
      case Nature::Type::text:
        break;
    }
    return "text";
  }

  void add_value(const FormField& field, JsonObject& json) const {
    const Nature& nature = field.nature;
    json.push_back({"kind", nature.kind});
    json.push_back({"kind_words", trade::kind_in(words_, nature.kind)});
    json.push_back({"unit", unit(field)});
    json.push_back({"example", example(field)});
    json.push_back({"range", range(nature)});
    json.push_back({"longest", nature.longest == 0 ? Json() : Json(static_cast<double>(nature.longest))});
    json.push_back({"default", field.default_text.empty() ? Json() : Json(shown(nature.kind, field.default_text))});
    json.push_back({"choices", choices(field)});
  }

  void add_inner(const FormField& field, JsonObject& json) const {
    if (field.shape == FormField::Shape::list) {
      json.push_back({"at_least", static_cast<double>(field.at_least)});
      json.push_back({"at_most", static_cast<double>(field.at_most)});
      json.push_back({"one", of(field, "one", with_blanks(field.one))});
      json.push_back({"told_by", field.told_by.empty() ? Json() : Json(field.told_by)});
    }
    JsonList inner;
    for (const FormField& each : field.fields) inner.push_back(this->field(each));
    json.push_back({"fields", std::move(inner)});
  }

  /// Where there is a default that is the best example; what refers to another document is chosen from those there are.
  [[nodiscard]] std::string example(const FormField& field) const {
    if (field.role == trade::Role::reference) return {};
    return shown(field.nature.kind, field.default_text.empty() ? field.nature.example : field.default_text);
  }

  [[nodiscard]] JsonList choices(const FormField& field) const {
    JsonList list;
    for (const std::string& word : field.nature.words)
      list.push_back(JsonObject{{"value", word}, {"label", trade::choice_in(words_, noun_, field.path, word)}});
    return list;
  }

  [[nodiscard]] std::string unit(const FormField& field) const {
    if (units_ == TemperatureScale::celsius) return field.unit;
    if (field.nature.kind == "a temperature" || field.nature.kind == "a temperature difference") return "°F";
    return field.nature.kind == "a heating rate" ? "°F/min" : field.unit;
  }

  /// A value as this reader writes it: his scale, his decimal mark.
  [[nodiscard]] std::string shown(std::string_view kind, const std::string& text) const {
    const quantity::Manner manner{quantity::UnitSystem::fahrenheit, mark_, text.starts_with("0.") ? 2 : 0};  // small ones stay seen
    if (units_ == TemperatureScale::fahrenheit) {
      if (kind == "a temperature")
        if (const auto read = quantity::read<quantity::Temperature>(text)) return quantity::show(*read, manner);
      if (kind == "a temperature difference")
        if (const auto read = quantity::read<quantity::TemperatureDifference>(text)) return quantity::show(*read, manner);
      if (kind == "a heating rate")
        if (const auto read = quantity::read<quantity::HeatingRate>(text)) return quantity::show(*read, manner);
    }
    return quantity::as_people_write(text, std::string_view(&mark_, 1));
  }

  [[nodiscard]] std::string range(const Nature& nature) const {
    const std::string& text = nature.range;
    if (text.empty()) return {};
    if (nature.kind == "a name" && words_.has("range.name")) return words_.say("range.name", {{"most", text.substr(text.rfind(' ') + 1)}});
    if (nature.kind == "a hash") return said("range.hash", text);
    if (nature.kind.starts_with("teeth")) return said("range.teeth", text);
    if (nature.kind == "a person's code") return said("range.person", text);
    constexpr std::string_view least = "at least ", most = "at most ", to = " to ";
    if (text.starts_with(least)) return told("at_least", {{"low", shown(nature.kind, text.substr(least.size()))}}, text);
    if (text.starts_with(most)) return told("at_most", {{"high", shown(nature.kind, text.substr(most.size()))}}, text);
    const auto between = text.find(to);
    if (between == std::string::npos || nature.kind == "a name") return text;
    return told("between",
                {{"low", shown(nature.kind, text.substr(0, between))}, {"high", shown(nature.kind, text.substr(between + to.size()))}},
                text);
  }
  [[nodiscard]] std::string told(const std::string& how, std::initializer_list<std::pair<std::string_view, std::string>> gaps,
                                 const std::string& otherwise) const {
    return words_.has("range." + how) ? words_.say("range." + how, gaps) : otherwise;
  }

  const trade::Words& words_;
  trade::Noun noun_;
  TemperatureScale units_;
  char mark_;
};

}  // namespace

CareAnswer form_for(trade::Noun noun, trade::Language language, TemperatureScale units) {
  const Teller teller(noun, language, units);
  JsonList fields;
  std::string text;
  for (const FormField& field : trade::form_of(noun)) {
    text += fmt::format("{}: {}\n", field.key, field.meaning);
    fields.push_back(teller.field(field));
  }
  return {text, JsonObject{{"format", 1}, {"kind", trade::word(noun)}, {"label", teller.called()}, {"fields", std::move(fields)}}, false};
}

}  // namespace heatwork::desk
