#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "desk/calculations/registry.h"
#include "desk/columns.h"

namespace heatwork::desk {
namespace {

std::string unit_of(const Field& field) {
  return field.unit.empty() ? "" : fmt::format(" [{}]", field.unit);
}

void put_fields(std::string& out, std::span<const Field> fields, std::size_t margin, bool inputs) {
  for (const Field& field : fields) {
    std::string line = fmt::format("{}{}: {}", field.name, unit_of(field), field.meaning);
    if (inputs) line += fmt::format("; {}{}", allowed(field), field.required ? "" : "; optional");
    if (field.may_be_null) line += "; null where there is none";
    out += wrapped(line, margin + 4, margin);
    if (field.shape == Shape::objects || field.shape == Shape::object) put_fields(out, field.parts, margin + 4, inputs);
    if (field.shape == Shape::rows && inputs) {
      for (const Field& part : field.parts) {
        out += wrapped(fmt::format("{}{}: {}", part.name, unit_of(part), part.meaning), margin + 8, margin + 4);
      }
    }
  }
}

std::string choice_in_words(const Calculation& calculation) {
  std::string out;
  for (const Together keys : calculation.exactly_one_of) {
    out += out.empty() ? "Exactly one of: " : "; or ";
    for (std::size_t i = 0; i < keys.size(); ++i) out += (i > 0 ? ", " : "") + std::string(keys[i]);
  }
  return out.empty() ? out : out + ".";
}

JsonObject number_members(const Field& field) {
  JsonObject schema{{"type", "number"}};
  if (std::isfinite(field.at_least)) schema.push_back({field.above ? "exclusiveMinimum" : "minimum", field.at_least});
  if (std::isfinite(field.at_most)) schema.push_back({"maximum", field.at_most});
  return schema;
}

Json number_schema(const Field& field) {
  return number_members(field);
}

Json object_schema(std::span<const Field> fields, bool closed);

JsonObject shape_schema(const Field& field, bool closed) {
  const auto list_of = [&](Json items) {
    return JsonObject{{"type", "array"},
                      {"minItems", static_cast<double>(field.fewest)},
                      {"maxItems", static_cast<double>(field.most)},
                      {"items", std::move(items)}};
  };
  switch (field.shape) {
    case Shape::number:
      return number_members(field);
    case Shape::truth:
      return {{"type", "boolean"}};
    case Shape::word: {
      JsonList words;
      if (field.names != nullptr) {
        for (const std::string& each : field.names()) words.emplace_back(each);
      }
      for (const std::string_view each : field.words) words.emplace_back(each);
      return {{"type", "string"}, {"enum", std::move(words)}};
    }
    case Shape::numbers: {
      if (!field.may_be_null) return list_of(number_schema(field));
      return list_of(JsonObject{{"oneOf", JsonList{number_schema(field), JsonObject{{"type", "null"}}}}});
    }
    case Shape::number_or_list:
      return {{"oneOf", JsonList{number_schema(field), list_of(JsonObject{{"type", "number"}})}}};
    case Shape::rows: {
      JsonList parts;
      for (const Field& part : field.parts) parts.push_back(number_schema(part));
      const auto width = static_cast<double>(field.parts.size());
      return list_of(JsonObject{{"type", "array"}, {"prefixItems", std::move(parts)}, {"minItems", width}, {"maxItems", width}});
    }
    case Shape::objects:
      return list_of(object_schema(field.parts, closed));
    case Shape::object:
      return *object_schema(field.parts, closed).object();
  }
  return {};
}

Json object_schema(std::span<const Field> fields, bool closed) {
  JsonObject properties;
  JsonList required;
  for (const Field& field : fields) {
    JsonObject schema = shape_schema(field, closed);
    if (field.may_be_null && field.shape == Shape::number) schema = {{"oneOf", JsonList{Json(schema), JsonObject{{"type", "null"}}}}};
    schema.insert(schema.begin(), {"description", std::string(field.meaning) + unit_of(field)});
    properties.push_back({std::string(field.name), std::move(schema)});
    if (field.required) required.emplace_back(field.name);
  }
  JsonObject out{{"type", "object"}, {"properties", std::move(properties)}, {"required", std::move(required)}};
  if (closed) out.push_back({"additionalProperties", false});
  return out;
}

}  // namespace

std::string calculation_list() {
  std::size_t longest = 0;
  for (const Calculation* each : calculations()) longest = std::max(longest, each->name.size());
  std::string out;
  for (const Calculation* each : calculations()) {
    out += fmt::format("{:<{}}  {} ({})\n", each->name, longest, each->purpose, each->source);
  }
  return out;
}

std::string describe_as_text(const Calculation& calculation) {
  std::string out = fmt::format("{}\n\n", calculation.name);
  out += wrapped(calculation.purpose, 2, 2) + "\n";
  out += wrapped(fmt::format("Equation: {}", calculation.equation), 4, 2);
  out += wrapped(fmt::format("Source: {}", calculation.source), 4, 2);
  out += "\nIn\n";
  put_fields(out, calculation.inputs, 2, true);
  if (const std::string choice = choice_in_words(calculation); !choice.empty()) out += wrapped(choice, 4, 2);
  out += "\nOut\n";
  put_fields(out, calculation.outputs, 2, false);
  return out;
}

Json describe_as_schema(const Calculation& calculation) {
  JsonObject schema{
      {"$schema", "https://json-schema.org/draft/2020-12/schema"},
      {"title", calculation.name},
      {"description", fmt::format("{} Equation: {} Source: {}", calculation.purpose, calculation.equation, calculation.source)}};
  const Json inputs = object_schema(calculation.inputs, true);
  for (const JsonMember& member : *inputs.object()) schema.push_back(member);
  if (!calculation.exactly_one_of.empty()) {
    JsonList choices;
    for (const Together keys : calculation.exactly_one_of) {
      JsonList names;
      JsonList others;
      for (const std::string_view key : keys) names.emplace_back(key);
      for (const Together rest : calculation.exactly_one_of) {
        if (rest.data() == keys.data()) continue;
        for (const std::string_view key : rest) others.push_back(JsonObject{{"required", JsonList{Json(key)}}});
      }
      choices.push_back(JsonObject{{"required", std::move(names)}, {"not", JsonObject{{"anyOf", std::move(others)}}}});
    }
    schema.push_back({"oneOf", std::move(choices)});
  }
  schema.push_back({"$defs", JsonObject{{"answer", object_schema(calculation.outputs, false)}}});
  return schema;
}

}  // namespace heatwork::desk
