#include "desk/json_value.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace heatwork::desk {
namespace {

constexpr int significant_digits = 10;

void write_text(std::string& out, std::string_view text) {
  constexpr std::string_view hexadecimal = "0123456789abcdef";
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (byte < 0x20) {
      out += "\\u00";
      out += hexadecimal[byte >> 4];
      out += hexadecimal[byte & 15];
    } else {
      out += c;
    }
  }
  out += '"';
}

bool is_plain(const Json& value) {
  if (const JsonList* items = value.list()) {
    return std::all_of(items->begin(), items->end(), [](const Json& item) { return !item.list() && !item.object(); });
  }
  return !value.object() || value.object()->empty();
}

void write_value(std::string& out, const Json& value, int depth);

void write_list(std::string& out, const JsonList& items, int depth) {
  const bool one_line = std::all_of(items.begin(), items.end(), is_plain);
  const std::string margin = one_line ? "" : "\n" + std::string(2 * (static_cast<std::size_t>(depth) + 1), ' ');
  out += '[';
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += one_line ? ", " : ",";
    out += margin;
    write_value(out, items[i], depth + 1);
  }
  if (!one_line) out += "\n" + std::string(2 * static_cast<std::size_t>(depth), ' ');
  out += ']';
}

void write_object(std::string& out, const JsonObject& members, int depth) {
  if (members.empty()) {
    out += "{}";
    return;
  }
  const std::string margin(2 * (static_cast<std::size_t>(depth) + 1), ' ');
  out += "{\n";
  for (std::size_t i = 0; i < members.size(); ++i) {
    out += margin;
    write_text(out, members[i].key);
    out += ": ";
    write_value(out, members[i].value, depth + 1);
    out += i + 1 < members.size() ? ",\n" : "\n";
  }
  out += std::string(2 * static_cast<std::size_t>(depth), ' ') + "}";
}

void write_value(std::string& out, const Json& value, int depth) {
  if (value.is_null()) {
    out += "null";
  } else if (const bool* truth = value.truth()) {
    out += *truth ? "true" : "false";
  } else if (const double* number = value.number()) {
    out += json_number(*number);
  } else if (const std::string* text = value.text()) {
    write_text(out, *text);
  } else if (const JsonList* items = value.list()) {
    write_list(out, *items, depth);
  } else {
    write_object(out, *value.object(), depth);
  }
}

}  // namespace

Json::Json() = default;
Json::Json(std::nullptr_t) {}
Json::Json(bool value) : value_(value) {}
Json::Json(double value) : value_(value) {}
Json::Json(int value) : value_(static_cast<double>(value)) {}
Json::Json(std::string value) : value_(std::move(value)) {}
Json::Json(std::string_view value) : value_(std::string(value)) {}
Json::Json(const char* value) : value_(std::string(value)) {}
Json::Json(JsonList value) : value_(std::move(value)) {}
Json::Json(JsonObject value) : value_(std::move(value)) {}
Json::Json(const Json& other) = default;
Json::Json(Json&& other) noexcept = default;
Json& Json::operator=(const Json& other) = default;
Json& Json::operator=(Json&& other) noexcept = default;
Json::~Json() = default;

const bool* Json::truth() const {
  return std::get_if<bool>(&value_);
}
const double* Json::number() const {
  return std::get_if<double>(&value_);
}
const std::string* Json::text() const {
  return std::get_if<std::string>(&value_);
}
const JsonList* Json::list() const {
  return std::get_if<JsonList>(&value_);
}
const JsonObject* Json::object() const {
  return std::get_if<JsonObject>(&value_);
}
bool Json::is_null() const {
  return std::holds_alternative<std::nullptr_t>(value_);
}

Json::Json(const std::vector<double>& values) : value_(JsonList(values.begin(), values.end())) {}

const Json* Json::find(std::string_view key) const {
  if (const JsonObject* members = object()) {
    for (const JsonMember& member : *members) {
      if (member.key == key) return &member.value;
    }
  }
  return nullptr;
}

Json text_or_null(std::string_view text) {
  return text.empty() ? Json() : Json(text);
}

std::string_view kind_of(const Json& value) {
  if (value.is_null()) return "null";
  if (value.truth()) return *value.truth() ? "true" : "false";
  if (value.number()) return "a number";
  if (value.text()) return "text";
  return value.list() ? "a list" : "an object";
}

std::string json_number(double value) {
  if (!std::isfinite(value)) throw std::logic_error("a number to be written as JSON is not finite");
  if (value == 0) return "0";
  char buffer[40];
  const auto written = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::general, significant_digits);
  return {buffer, written.ptr};
}

std::string write_json(const Json& value) {
  std::string out;
  write_value(out, value, 0);
  return out + "\n";
}

}  // namespace heatwork::desk
