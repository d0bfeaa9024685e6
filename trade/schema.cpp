#include "trade/schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <nlohmann/json.hpp>

#include "quantity/people_write.h"
#include "trade/alloy.h"
#include "trade/field.h"
#include "trade/firing.h"

namespace heatwork::trade {
namespace {

using Json = nlohmann::ordered_json;

/// Calls `use` with the blank noun of a kind.
template <class Use>
void with_blank(Noun noun, Use use) {
  with_type_of(noun, [&]<class T>(std::type_identity<T>) { use(T{}); });
}

std::string meaning_in_full(const FieldInfo& info, const Nature& nature) {
  std::string text = fmt::format("{}: {}", nature.kind, info.meaning);
  if (!nature.range.empty()) text += fmt::format("; {}", quantity::as_people_write(nature.range, "."));
  return text;
}

/// A list of whole numbers or of names.
Json list_of(const Nature& nature) {
  Json item = {{"type", nature.type == Nature::Type::texts ? "string" : "integer"}};
  if (!nature.pattern.empty()) item["pattern"] = nature.pattern;
  if (!nature.numbers.empty()) item["enum"] = nature.numbers;
  Json json = {{"type", "array"}, {"items", std::move(item)}, {"uniqueItems", true}};
  if (nature.shortest > 0) json["minItems"] = nature.shortest;
  if (nature.longest > 0) json["maxItems"] = nature.longest;
  return json;
}

Json text_of(const Nature& nature) {
  Json json = {{"type", "string"}};
  if (!nature.words.empty()) json["enum"] = nature.words;
  if (!nature.pattern.empty()) json["pattern"] = nature.pattern;
  if (nature.longest > 0) json["maxLength"] = nature.longest;
  if (nature.words.empty() && !nature.example.empty()) json["examples"] = Json::array({nature.example});
  return json;
}

Json number_of(const Nature& nature, std::string_view type) {
  Json json = {{"type", type}};
  if (nature.low) json["minimum"] = *nature.low;
  if (nature.high) json["maximum"] = *nature.high;
  return json;
}

Json type_of(const Nature& nature) {
  switch (nature.type) {
    case Nature::Type::text:
      return text_of(nature);
    case Nature::Type::whole_number:
      return number_of(nature, "integer");
    case Nature::Type::number: {
      Json either;
      either["anyOf"] = Json::array({number_of(nature, "number"), Json{{"type", "string"}, {"pattern", nature.pattern}}});
      return either;
    }
    case Nature::Type::truth:
      return {{"type", "boolean"}};
    case Nature::Type::whole_numbers:
    case Nature::Type::texts:
      return list_of(nature);
  }
  return {};
}

/// What several keys of one table must be together; the same as check() of the noun says in words. A table is known by its keys.
class Conditions {
 public:
  explicit Conditions(Json& table) : table_(table) {}

  [[nodiscard]] bool has(std::initializer_list<const char*> keys) const {
    return std::all_of(keys.begin(), keys.end(), [&](const char* key) { return table_["properties"].contains(key); });
  }
  void when(const char* condition, const char* then, const char* otherwise = nullptr) {
    Json json = {{"if", Json::parse(condition)}, {"then", Json::parse(then)}};
    if (otherwise != nullptr) json["else"] = Json::parse(otherwise);
    all_.push_back(std::move(json));
  }
  void put() {
    if (!all_.empty()) table_["allOf"] = std::move(all_);
  }

 private:
  Json& table_;
  Json all_ = Json::array();
};

void conditions_of_firing_record(Conditions& conditions) {
  conditions.when(R"({"properties": {"state": {"enum": ["planned", "called off"]}}})",
                  R"({"properties": {"started": false, "started_by": false, "interrupted": false, "interruption": false}})",
                  R"({"properties": {"started": true, "started_by": true}, "required": ["started", "started_by"]})");
  conditions.when(R"({"properties": {"state": {"const": "ended"}}})",
                  R"({"properties": {"ended": true, "ended_by": true}, "required": ["ended", "ended_by"]})",
                  R"({"properties": {"ended": false, "ended_by": false}})");
  conditions.when(R"({"properties": {"state": {"const": "interrupted"}}})",
                  R"({"properties": {"interrupted": true, "interruption": true}, "required": ["interrupted", "interruption"]})");
  conditions.when(R"({"properties": {"state": {"enum": ["ended", "interrupted"]}}})", "true", R"({"properties": {"result": false}})");
  conditions.when(R"({"properties": {"interrupted": true}, "required": ["interrupted"]})",
                  R"({"properties": {"interruption": true}, "required": ["interruption"]})", R"({"properties": {"interruption": false}})");
}

/// Two values of which exactly one is given.
void either(Conditions& conditions, const char* one, const char* other) {
  const auto given = [](const char* key) { return fmt::format(R"({{"properties": {{"{0}": true}}, "required": ["{0}"]}})", key); };
  conditions.when(given(one).c_str(), fmt::format(R"({{"properties": {{"{}": false}}}})", other).c_str(), given(other).c_str());
}

void conditions_of_check(Conditions& conditions) {
  if (conditions.has({"good", "error", "standard_uncertainty"})) {
    conditions.when(R"({"properties": {"error": false}})", R"({"properties": {"standard_uncertainty": false}})");
    conditions.when(R"({"properties": {"good": {"const": true}}})",
                    R"({"properties": {"finished": {"const": true}, "cannot_tell": {"const": false}}})");
  }
  if (conditions.has({"melting", "melting_u"}))
    conditions.when(R"({"properties": {"melting": false}})", R"({"properties": {"melting_u": false}})");
  if (conditions.has({"correction", "correction_u"}))
    conditions.when(R"({"properties": {"correction": false}})", R"({"properties": {"correction_u": false}})");
  if (conditions.has({"probe", "emf", "cold_junction"})) {
    either(conditions, "probe", "emf");
    conditions.when(R"({"properties": {"emf": true}, "required": ["emf"]})",
                    R"({"properties": {"cold_junction": true}, "required": ["cold_junction"]})",
                    R"({"properties": {"cold_junction": false}})");
  }
  if (conditions.has({"looked_like", "lightness", "redness", "yellowness"}))
    conditions.when(
        R"({"properties": {"looked_like": true}, "required": ["looked_like"]})",
        R"({"properties": {"lightness": false, "redness": false, "yellowness": false}})",
        R"({"properties": {"lightness": true, "redness": true, "yellowness": true}, "required": ["lightness", "redness", "yellowness"]})");
}

/// What falls due, of a furnace and of a lab.
void conditions_of_due(Conditions& conditions) {
  if (!conditions.has({"what", "every_days", "after_firings", "after_hours"})) return;
  const bool of_furnace = conditions.has({"on", "done"});
  const auto given = [](const char* key) { return fmt::format(R"({{"properties": {{"{0}": true}}, "required": ["{0}"]}})", key); };
  std::string any = given("every_days") + ", " + given("after_firings") + ", " + given("after_hours");
  if (of_furnace) any += ", " + given("on") + ", " + given("done");
  conditions.when("true", fmt::format(R"({{"anyOf": [{}]}})", any).c_str());
  if (!of_furnace) return;
  conditions.when(given("on").c_str(), R"({"properties": {"every_days": false, "after_firings": false, "after_hours": false}})");
  conditions.when(given("done").c_str(), given("done_by").c_str(), R"({"properties": {"done_by": false}})");
  conditions.when(R"({"properties": {"by": {"const": "furnace maker"}}, "required": ["by"]})", given("stated_in").c_str(),
                  R"({"properties": {"stated_in": false}})");
}

void conditions_of_records(Conditions& conditions) {
  if (conditions.has({"state", "started", "ended", "interruption"})) conditions_of_firing_record(conditions);
  if (conditions.has({"kind", "version", "snapshot"}))
    conditions.when(R"({"properties": {"version": {"type": "integer", "minimum": 1}}, "required": ["version"]})",
                    R"({"properties": {"snapshot": false}})", R"({"properties": {"snapshot": true}, "required": ["snapshot"]})");
  if (conditions.has({"material", "liquid", "expires"}))
    conditions.when(R"({"properties": {"material": true}, "required": ["material"]})", R"({"properties": {"liquid": false}})",
                    R"({"properties": {"liquid": true}, "required": ["liquid"]})");
  conditions_of_check(conditions);
  conditions_of_due(conditions);
  if (conditions.has({"decision", "released_at", "released_by"})) {
    conditions.when(
        R"({"properties": {"released_at": true}, "required": ["released_at"]})",
        R"({"properties": {"released_by": true, "decision": {"not": {"const": "open"}}}, "required": ["released_by", "decision"]})",
        R"({"properties": {"released_by": false}})");
  }
}

void add_conditions(Json& table) {
  Conditions conditions(table);
  const auto has = [&](std::initializer_list<const char*> keys) { return conditions.has(keys); };
  const auto when = [&](const char* condition, const char* then, const char* otherwise = nullptr) {
    conditions.when(condition, then, otherwise);
  };
  if (has({"value", "low", "high", "standing"}))
    when(R"({"properties": {"standing": {"const": "none found"}}})", R"({"properties": {"value": false}})",
         R"({"properties": {"value": true, "low": true, "high": true}, "required": ["value", "low", "high"]})");
  if (has({"inside", "inner_mass"}))
    when(R"({"properties": {"inside": {"const": "mass"}}})", R"({"properties": {"inner_mass": true}, "required": ["inner_mass"]})",
         R"({"properties": {"inner_mass": false}})");
  if (has({"form", "inner_radius"})) when(R"({"properties": {"form": {"const": "plate"}}})", R"({"properties": {"inner_radius": false}})");
  if (has({"green", "liquid"}))
    when(R"({"properties": {"liquid": true}, "required": ["liquid"]})",
         R"({"properties": {"green": {"const": true}}, "required": ["green"]})");
  if (has({"hold_under_vacuum", "to"}))
    when(R"({"properties": {"hold_under_vacuum": {"type": "string", "pattern": "[1-9]"}}, "required": ["hold_under_vacuum"]})",
         R"({"properties": {"to": true}, "required": ["to"]})");
  if (has({"water_only", "organic"}))
    when(R"({"properties": {"organic": {"const": true}}, "required": ["organic"]})",
         R"({"properties": {"water_only": {"const": false}}, "required": ["water_only"]})");
  conditions_of_records(conditions);
  conditions.put();
}

class SchemaBuilder : public Fields {
 public:
  SchemaBuilder() {
    object = {{"type", "object"}, {"properties", Json::object()}, {"required", Json::array()}, {"additionalProperties", false}};
  }

  void value(const FieldInfo& info, Slot& slot) override {
    const Nature nature = slot.nature();
    Json json = type_of(nature);
    json["description"] = meaning_in_full(info, nature);
    if (!info.default_text.empty()) json["default"] = default_of(info.default_text, nature.type);
    add(info, std::move(json));
  }

  void group(const Group& group) override {
    group.make({});
    SchemaBuilder inner;
    group.describe(inner);
    add_conditions(inner.object);
    inner.object["description"] = group.info.meaning;
    add(group.info, std::move(inner.object));
  }

  void list(const List& list) override {
    list.add({});
    SchemaBuilder inner;
    list.describe(inner, 0);
    add_conditions(inner.object);
    add(list.info, {{"type", "array"},
                    {"description", list.info.meaning},
                    {"minItems", list.at_least},
                    {"maxItems", list.at_most},
                    {"items", std::move(inner.object)}});
  }

  Json object;

 private:
  static Json default_of(const std::string& text, Nature::Type type) {
    if (type == Nature::Type::text) return text;
    return Json::parse(text);
  }

  void add(const FieldInfo& info, Json json) {
    object["properties"][std::string(info.key)] = std::move(json);
    if (info.required) object["required"].push_back(info.key);
  }
};

class KeyTable : public Fields {
 public:
  explicit KeyTable(std::string path) : path_(std::move(path)) {}

  void value(const FieldInfo& info, Slot& slot) override {
    const Nature nature = slot.nature();
    std::string holds = nature.kind;
    if (!nature.words.empty()) holds = fmt::format("{}", fmt::join(nature.words, ", "));
    if (!nature.range.empty()) holds += fmt::format(", {}", quantity::as_people_write(nature.range, "."));
    row(info.key, holds, need(info), info.meaning);
  }

  void group(const Group& group) override {
    group.make({});
    if (group.on_one_line) {
      row(group.info.key, "an estimate", "may be left out", group.info.meaning);
      return;
    }
    row(group.info.key, "a table", group.info.required ? "needed" : "may be left out", group.info.meaning);
    KeyTable inner(fmt::format("{}.{}", path_, group.info.key));
    group.describe(inner);
    later += inner.text();
  }

  void list(const List& list) override {
    list.add({});
    row(list.info.key, fmt::format("a list of {} to {}", list.at_least, list.at_most), list.at_least > 0 ? "needed" : "may be left out",
        list.info.meaning);
    KeyTable inner(fmt::format("{}.{}", path_, list.info.key));
    list.describe(inner, 0);
    later += inner.text();
  }

  [[nodiscard]] std::string text() const {
    return fmt::format("\n`[{}]`\n\n| key | holds | | meaning |\n|---|---|---|---|\n{}{}", path_, rows_, later);
  }

 private:
  static std::string need(const FieldInfo& info) {
    if (info.required) return "needed";
    return info.default_text.empty() ? "may be left out" : fmt::format("else {}", info.default_text);
  }
  void row(std::string_view key, std::string_view holds, std::string_view needed, std::string_view meaning) {
    rows_ += fmt::format("| `{}` | {} | {} | {} |\n", key, holds, needed, meaning);
  }

  std::string path_;
  std::string rows_;
  std::string later;
};

}  // namespace

std::string schema_of(Noun noun) {
  Json json;
  with_blank(noun, [&](auto blank) {
    SchemaBuilder builder;
    describe(builder, blank);
    add_conditions(builder.object);
    const std::string key = table_key(noun);
    json["$schema"] = "https://json-schema.org/draft/2020-12/schema";
    json["title"] = fmt::format("heatwork {}", word(noun));
    json["description"] =
        "A quantity is a text with its unit. The patterns hold the usual spellings of units; the reader takes others of the same dimension "
        "as well. Ranges of quantities, order in time and names of other files are checked by the reader alone.";
    json["type"] = "object";
    json["properties"]["format"] = {{"const", 1}, {"description", "version of the format"}};
    json["properties"][key] = std::move(builder.object);
    json["required"] = {"format", key};
    json["additionalProperties"] = false;
  });
  return json.dump(2) + "\n";
}

std::string key_table_of(Noun noun) {
  std::string text;
  with_blank(noun, [&](auto blank) {
    KeyTable table{table_key(noun)};
    describe(table, blank);
    text = table.text();
  });
  return text;
}

}  // namespace heatwork::trade
