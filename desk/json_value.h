// A JSON value as calculations take it in and hand it out: members in order, numbers as doubles.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace heatwork::desk {

class Json;
struct JsonMember;
using JsonList = std::vector<Json>;
using JsonObject = std::vector<JsonMember>;

class Json {
 public:
  Json();
  Json(std::nullptr_t);
  Json(bool value);
  Json(double value);
  Json(int value);
  Json(std::string value);
  Json(std::string_view value);
  Json(const char* value);
  Json(JsonList value);
  Json(JsonObject value);
  /// A list of numbers.
  Json(const std::vector<double>& values);
  Json(const Json& other);
  Json(Json&& other) noexcept;
  Json& operator=(const Json& other);
  Json& operator=(Json&& other) noexcept;
  ~Json();

  // nullptr where the value is of another kind.
  [[nodiscard]] const bool* truth() const;
  [[nodiscard]] const double* number() const;
  [[nodiscard]] const std::string* text() const;
  [[nodiscard]] const JsonList* list() const;
  [[nodiscard]] const JsonObject* object() const;
  [[nodiscard]] bool is_null() const;
  /// The member of an object; nullptr where there is none.
  [[nodiscard]] const Json* find(std::string_view key) const;

 private:
  std::variant<std::nullptr_t, bool, double, std::string, JsonList, JsonObject> value_;
};

struct JsonMember {
  std::string key;
  Json value;
};

/// null where the text is empty.
Json text_or_null(std::string_view text);

/// What kind of value it is, with its article: "a number", "text", "a list".
std::string_view kind_of(const Json& value);

/// Reads one JSON text strictly: no duplicate keys, nothing after the end, UTF-8, at most 32 deep. A number that is not finite (NaN,
/// Infinity, too large) is kept as NaN so that the refusal can name its key. Errors: Failure bad_json, "name:line:column: sentence".
Json read_json(std::string_view name, std::string_view text);

/// Numbers with 10 significant digits, members a line each, lists of plain values in one line. Errors: std::logic_error for NaN.
std::string write_json(const Json& value);
/// A number as it is written there.
std::string json_number(double value);

}  // namespace heatwork::desk
