#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "desk/calculations/calculation.h"
#include "desk/errors.h"
#include "quantity/read.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

[[noreturn]] void refuse(const std::string& sentence) {
  throw Failure(ErrorWord::bad_value, sentence);
}

std::string unit_after(const Field& field) {
  return field.unit.empty() ? "" : fmt::format(" {}", field.unit);
}

std::string range(const Field& field) {
  const std::string low = field.above ? fmt::format("above {}", json_number(std::isfinite(field.at_least) ? field.at_least : 0)) : "";
  if (std::isfinite(field.at_least) && std::isfinite(field.at_most)) {
    if (field.above) return fmt::format(" {} and at most {}{}", low, json_number(field.at_most), unit_after(field));
    return fmt::format(" from {} to {}{}", json_number(field.at_least), json_number(field.at_most), unit_after(field));
  }
  if (field.above) return fmt::format(" {}{}", low, unit_after(field));
  if (std::isfinite(field.at_least)) return fmt::format(" of at least {}{}", json_number(field.at_least), unit_after(field));
  if (std::isfinite(field.at_most)) return fmt::format(" of at most {}{}", json_number(field.at_most), unit_after(field));
  return field.unit.empty() ? "" : fmt::format(" in {}", field.unit);
}

std::vector<std::string> words_of(const Field& field) {
  if (field.names != nullptr) return field.names();
  return {field.words.begin(), field.words.end()};
}

std::string either(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + fmt::format("\"{}\"", words[i]);
  }
  return out;
}

/// A range in signs, the same in every language.
std::string range_in_signs(const Field& field) {
  const bool low = std::isfinite(field.at_least), high = std::isfinite(field.at_most);
  if (low && high && !field.above)
    return fmt::format(" {} … {}{}", json_number(field.at_least), json_number(field.at_most), unit_after(field));
  std::string out;
  if (low || field.above) out += fmt::format(" {} {}{}", field.above ? ">" : "≥", json_number(low ? field.at_least : 0), unit_after(field));
  if (high) out += fmt::format(" ≤ {}{}", json_number(field.at_most), unit_after(field));
  return out.empty() ? unit_after(field) : out;
}

std::string columns(const Field& field) {
  std::string out;
  for (const Field& part : field.parts) out += (out.empty() ? "" : ", ") + std::string(part.name) + range_in_signs(part);
  return out;
}

std::string count(const Field& field, std::string_view what) {
  if (field.fewest == field.most) return fmt::format("{} {}", field.fewest, what);
  return fmt::format("{} to {} {}", field.fewest, field.most, what);
}

std::string shown(const Json& value) {
  if (const double* number = value.number()) return std::isfinite(*number) ? json_number(*number) : "not a finite number";
  if (const std::string* text = value.text()) return fmt::format("\"{}\"", trade::for_message(*text, 40));
  return std::string(kind_of(value));
}

class Check {
 public:
  Check(const Field& field, std::string place) : field_(field), place_(std::move(place)) {}

  void value(const Json& given) const {
    switch (field_.shape) {
      case Shape::number:
        return number(given, field_, place_);
      case Shape::truth:
        if (!given.truth()) wrong(given);
        return;
      case Shape::word:
        return word(given);
      case Shape::number_or_list:
        if (given.number()) return number(given, field_, place_);
        [[fallthrough]];
      case Shape::numbers:
        return numbers(given);
      case Shape::rows:
        return rows(given);
      case Shape::objects:
        return objects(given);
      case Shape::object:
        Inputs(place_, given, field_.parts);
        return;
    }
  }

 private:
  [[noreturn]] void wrong(const Json& given) const {
    refuse(fmt::format("{} is {}, but must be {}.", place_, shown(given), allowed(field_)));
  }

  void number(const Json& given, const Field& field, const std::string& place) const {
    const double* number = given.number();
    const bool good = number && std::isfinite(*number) && *number <= field.at_most &&
                      (field.above ? *number > field.at_least : *number >= field.at_least);
    if (!good) refuse(fmt::format("{} is {}, but must be a number{}.", place, shown(given), range(field)));
  }

  void word(const Json& given) const {
    const std::vector<std::string> words = words_of(field_);
    if (given.text() && std::find(words.begin(), words.end(), *given.text()) != words.end()) return;
    const std::string meant = given.text() ? quantity::near_miss(*given.text(), words) : "";
    refuse(fmt::format("{} is {}, but must be {}{}.", place_, shown(given), either(words),
                       meant.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", meant)));
  }

  const JsonList& list(const Json& given) const {
    const JsonList* items = given.list();
    if (!items) wrong(given);
    if (items->size() < field_.fewest || items->size() > field_.most) {
      refuse(fmt::format("{} has {} entries, but must be {}.", place_, items->size(), allowed(field_)));
    }
    return *items;
  }

  void numbers(const Json& given) const {
    const JsonList& items = list(given);
    for (std::size_t i = 0; i < items.size(); ++i) {
      number(items[i], field_, fmt::format("{}[{}]", place_, i));
      if (field_.rising && i > 0) rises(*items[i - 1].number(), *items[i].number(), fmt::format("{}[{}]", place_, i), unit_after(field_));
    }
  }

  void rows(const Json& given) const {
    const JsonList& items = list(given);
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string place = fmt::format("{}[{}]", place_, i);
      const JsonList* row = items[i].list();
      if (!row || row->size() != field_.parts.size()) {
        refuse(fmt::format("{} is {}, but must be a list of {} numbers: {}.", place,
                           row ? fmt::format("a list of {}", row->size()) : shown(items[i]), field_.parts.size(), columns(field_)));
      }
      for (std::size_t j = 0; j < row->size(); ++j) number((*row)[j], field_.parts[j], fmt::format("{}[{}]", place, j));
      if (field_.rising && i > 0) {
        rises(*items[i - 1].list()->front().number(), *row->front().number(), place + "[0]", unit_after(field_.parts.front()));
      }
    }
  }

  static void rises(double before, double now, const std::string& place, const std::string& unit) {
    if (!(now > before)) {
      refuse(fmt::format("{} is {}{}, but must be above {}{} of the entry before: the list must rise.", place, json_number(now), unit,
                         json_number(before), unit));
    }
  }

  void objects(const Json& given) const {
    const JsonList& items = list(given);
    for (std::size_t i = 0; i < items.size(); ++i) Inputs(fmt::format("{}[{}]", place_, i), items[i], field_.parts);
  }

  const Field& field_;
  std::string place_;
};

std::string key_names(std::span<const Field> parts) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + fmt::format("\"{}\"", parts[i].name);
  }
  return out;
}

}  // namespace

std::string allowed(const Field& field) {
  switch (field.shape) {
    case Shape::number:
      return "a number" + range(field);
    case Shape::truth:
      return "true or false";
    case Shape::word:
      return either(words_of(field));
    case Shape::numbers:
      return fmt::format("a list of {}, each{}{}", count(field, "numbers"), range(field).empty() ? " finite" : range(field),
                         field.rising ? ", rising" : "");
    case Shape::number_or_list:
      return fmt::format("a number{}, or a list of {} of a polynomial in °C", range(field), count(field, "coefficients"));
    case Shape::rows:
      return fmt::format("a list of {} [{}]{}", count(field, "rows"), columns(field), field.rising ? ", the first column rising" : "");
    case Shape::objects:
      return fmt::format("a list of {}", count(field, "objects"));
    case Shape::object:
      return fmt::format("an object with {}", key_names(field.parts));
  }
  return {};
}

Inputs::Inputs(std::string_view of, const Json& object, std::span<const Field> fields) : object_(object), fields_(fields) {
  if (!object.object()) refuse(fmt::format("{} must be given a JSON object, not {}.", of, kind_of(object)));
  std::vector<std::string> names;
  std::string all;
  for (const Field& field : fields) {
    names.emplace_back(field.name);
    all += (all.empty() ? "" : ", ") + std::string(field.name);
  }
  const std::string prefix = of.starts_with('"') ? fmt::format("{}: ", of) : "";  // an object inside a list is named by its key
  for (const JsonMember& member : *object.object()) {
    if (std::find(names.begin(), names.end(), member.key) == names.end()) {
      const std::string meant = quantity::near_miss(member.key, names);
      refuse(fmt::format("{}\"{}\" is not a key of {}{}; its keys are {}.", prefix, trade::for_message(member.key, 40),
                         prefix.empty() ? of : "it", meant.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", meant), all));
    }
  }
  for (const Field& field : fields) {
    const Json* given = object.find(field.name);
    if (!given && field.required) {
      refuse(fmt::format("{}\"{}\" is missing from {}: it must be {}.", prefix, field.name, prefix.empty() ? of : "it", allowed(field)));
    }
    if (given) Check(field, fmt::format("{}\"{}\"", prefix, field.name)).value(*given);
  }
}

const Json& Inputs::at(std::string_view key) const {
  const Json* found = object_.find(key);
  if (found == nullptr) throw std::logic_error("an input was read that is not given: " + std::string(key));
  return *found;
}

double Inputs::number(std::string_view key) const {
  return *at(key).number();
}
bool Inputs::truth(std::string_view key) const {
  return *at(key).truth();
}
const std::string& Inputs::word(std::string_view key) const {
  return *at(key).text();
}

std::vector<double> Inputs::numbers(std::string_view key) const {
  const Json& given = at(key);
  if (given.number()) return {*given.number()};
  std::vector<double> out;
  for (const Json& item : *given.list()) out.push_back(*item.number());
  return out;
}

std::vector<double> Inputs::column(std::string_view key, std::size_t index) const {
  std::vector<double> out;
  for (const Json& row : *at(key).list()) out.push_back(*row.list()->at(index).number());
  return out;
}

std::span<const Field> Inputs::parts_of(std::string_view key) const {
  const auto field = std::find_if(fields_.begin(), fields_.end(), [&](const Field& each) { return each.name == key; });
  if (field == fields_.end()) throw std::logic_error("there is no such input: " + std::string(key));
  return field->parts;
}

std::vector<Inputs> Inputs::objects(std::string_view key) const {
  std::vector<Inputs> out;
  for (const Json& item : *at(key).list()) out.emplace_back(fmt::format("an entry of \"{}\"", key), item, parts_of(key));
  return out;
}

Inputs Inputs::object(std::string_view key) const {
  return Inputs(fmt::format("\"{}\"", key), at(key), parts_of(key));
}

void check_choice(const Calculation& calculation, const Inputs& inputs) {
  if (calculation.exactly_one_of.empty()) return;
  const auto quoted = [](Together keys) {
    std::string out;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      out += (i == 0 ? "" : i + 1 == keys.size() ? " and " : ", ") + fmt::format("\"{}\"", keys[i]);
    }
    return out;
  };
  std::string choices;
  std::vector<Together> touched;
  for (const Together keys : calculation.exactly_one_of) {
    choices += (choices.empty() ? "" : ", or ") + quoted(keys);
    if (std::any_of(keys.begin(), keys.end(), [&](std::string_view key) { return inputs.has(key); })) touched.push_back(keys);
  }
  if (touched.size() != 1) {
    refuse(fmt::format(
        "{} takes exactly one of these: {}; {}.", calculation.name, choices,
        touched.empty() ? "none is given" : fmt::format("{} and {} are given together", quoted(touched[0]), quoted(touched[1]))));
  }
  for (const std::string_view key : touched.front()) {
    if (inputs.has(key)) continue;
    const auto field =
        std::find_if(calculation.inputs.begin(), calculation.inputs.end(), [&](const Field& each) { return each.name == key; });
    refuse(fmt::format("\"{}\" is missing from {}: it must be {}, given together with {}.", key, calculation.name, allowed(*field),
                       quoted(touched.front())));
  }
}

}  // namespace heatwork::desk
