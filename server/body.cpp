#include "server/body.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "desk/errors.h"
#include "quantity/read.h"
#include "trade/mistake.h"

namespace heatwork::server {
namespace {

constexpr std::size_t shown_letters = 40;
const desk::Json nothing;
const desk::JsonList no_list;

[[noreturn]] void refuse(const std::string& sentence) {
  throw desk::Failure(desk::ErrorWord::bad_value, sentence);
}

std::string quoted(std::string_view key) {
  return fmt::format("\"{}\"", trade::for_message(std::string(key), shown_letters));
}

std::string shown(const desk::Json& value) {
  if (const double* number = value.number()) return std::isfinite(*number) ? desk::json_number(*number) : "not a finite number";
  if (const std::string* text = value.text()) return quoted(*text);
  if (const bool* truth = value.truth()) return *truth ? "true" : "false";
  return std::string(desk::kind_of(value));
}

std::string either(const std::vector<std::string_view>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) out += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + quoted(words[i]);
  return out;
}

std::string meant(std::string_view typed, const std::vector<std::string_view>& known) {
  const std::string near = quantity::near_miss(typed, known);
  return near.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", near);
}

bool known(const std::vector<std::string_view>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

[[noreturn]] void refuse_unknown(std::string_view what, std::string_view of, std::string_view name,
                                 const std::vector<std::string_view>& names) {
  refuse(fmt::format("{} is not a {} of {}{}; {}.", quoted(name), what, of, meant(name, names),
                     names.empty() ? fmt::format("it has no {}s", what) : fmt::format("its {}s are {}", what, fmt::join(names, ", "))));
}

int whole_in(const std::string& named, double value, const std::string& given, int least, int most) {
  if (std::isfinite(value) && value == std::floor(value) && value >= least && value <= most) return static_cast<int>(value);
  refuse(fmt::format("{} is {}, but must be a whole number from {} to {}.", named, given, least, most));
}

}  // namespace

Body::Body(std::string_view of, const desk::Json& json) : of_(of), json_(json) {
  if (json.object() == nullptr)
    throw desk::Failure(desk::ErrorWord::bad_json,
                        fmt::format("{} must be a JSON object, not {}.", of, json.is_null() ? "nothing" : desk::kind_of(json)));
}

Body::Body(std::string_view of, const desk::Json& json, std::vector<std::string_view> keys) : Body(of, json) {
  for (const desk::JsonMember& member : *json_.object()) {
    if (!known(keys, member.key)) refuse_unknown("key", of_, member.key, keys);
  }
}

const desk::Json& Body::at(std::string_view key) const {
  const desk::Json* found = json_.find(key);
  return found == nullptr ? nothing : *found;
}

std::string Body::named(std::string_view key) const {
  return fmt::format("{} of {}", quoted(key), of_);
}

void Body::wrong(std::string_view key, const desk::Json& given, std::string_view allowed) const {
  if (given.is_null()) refuse(fmt::format("{} is missing from {}: it must be {}.", quoted(key), of_, allowed));
  refuse(fmt::format("{} is {}, but must be {}.", named(key), shown(given), allowed));
}

bool Body::has(std::string_view key) const {
  return !at(key).is_null();
}

std::string Body::text(std::string_view key) const {
  const desk::Json& given = at(key);
  if (given.text() == nullptr) wrong(key, given, "text");
  return *given.text();
}

std::string Body::text_or(std::string_view key, std::string otherwise) const {
  return has(key) ? text(key) : std::move(otherwise);
}

std::optional<std::string> Body::text_if(std::string_view key) const {
  return has(key) ? std::optional(text(key)) : std::nullopt;
}

std::string Body::word(std::string_view key, const std::vector<std::string_view>& allowed) const {
  const desk::Json& given = at(key);
  if (given.text() == nullptr || !known(allowed, *given.text()))
    wrong(key, given, either(allowed) + (given.text() ? meant(*given.text(), allowed) : ""));
  return *given.text();
}

double Body::number(std::string_view key) const {
  const desk::Json& given = at(key);
  if (given.number() == nullptr || !std::isfinite(*given.number())) wrong(key, given, "a number");
  return *given.number();
}

int Body::whole(std::string_view key, int least, int most) const {
  const desk::Json& given = at(key);
  if (given.number() == nullptr) wrong(key, given, fmt::format("a whole number from {} to {}", least, most));
  return whole_in(named(key), *given.number(), shown(given), least, most);
}

std::optional<int> Body::whole_if(std::string_view key, int least, int most) const {
  return has(key) ? std::optional(whole(key, least, most)) : std::nullopt;
}

bool Body::truth(std::string_view key) const {
  const desk::Json& given = at(key);
  if (given.truth() == nullptr) wrong(key, given, "true or false");
  return *given.truth();
}

bool Body::truth_or(std::string_view key, bool otherwise) const {
  return has(key) ? truth(key) : otherwise;
}

std::optional<bool> Body::truth_if(std::string_view key) const {
  return has(key) ? std::optional(truth(key)) : std::nullopt;
}

const desk::JsonList& Body::list(std::string_view key) const {
  const desk::Json& given = at(key);
  if (given.is_null()) return no_list;
  if (given.list() == nullptr) wrong(key, given, "a list");
  return *given.list();
}

std::vector<std::string> Body::texts(std::string_view key) const {
  std::vector<std::string> all;
  for (const desk::Json& item : list(key)) {
    if (item.text() == nullptr) refuse(fmt::format("{} holds {}, but must be a list of texts.", named(key), shown(item)));
    all.push_back(*item.text());
  }
  return all;
}

Body Body::object(std::string_view key) const {
  const desk::Json& given = at(key);
  if (given.is_null()) return Body(quoted(key), desk::JsonObject{});
  if (given.object() == nullptr) wrong(key, given, "an object");
  return Body(quoted(key), given);
}

Body Body::object(std::string_view key, std::vector<std::string_view> keys) const {
  return Body(quoted(key), object(key).json(), std::move(keys));
}

std::vector<Values::Pair> Body::texts_by_name(std::string_view key) const {
  std::vector<Values::Pair> all;
  const Body inside = object(key);
  for (const desk::JsonMember& member : *inside.json().object()) {
    if (member.value.text() == nullptr) inside.wrong(member.key, member.value, "text");
    all.emplace_back(member.key, *member.value.text());
  }
  return all;
}

Query::Query(const Values& values, std::vector<std::string_view> names) : values_(values) {
  for (const auto& [name, value] : values_.pairs()) {
    if (!known(names, name)) refuse_unknown("name", "this address", name, names);
  }
}

std::string Query::text(std::string_view name) const {
  if (const std::string* found = values_.find(name)) return *found;
  refuse(fmt::format("{} is missing from the address.", quoted(name)));
}

std::string Query::text_or(std::string_view name, std::string otherwise) const {
  const std::string* found = values_.find(name);
  return found == nullptr ? std::move(otherwise) : *found;
}

std::optional<int> Query::whole_if(std::string_view name, int least, int most) const {
  const std::string* found = values_.find(name);
  if (found == nullptr) return std::nullopt;
  long value = 0;
  const auto [end, problem] = std::from_chars(found->data(), found->data() + found->size(), value);
  const bool good = problem == std::errc() && end == found->data() + found->size() && !found->empty();
  return whole_in(quoted(name), good ? static_cast<double>(value) : std::nan(""), quoted(*found), least, most);
}

int Query::whole_or(std::string_view name, int otherwise, int least, int most) const {
  return whole_if(name, least, most).value_or(otherwise);
}

bool Query::truth_or(std::string_view name, bool otherwise) const {
  const std::string* found = values_.find(name);
  if (found == nullptr) return otherwise;
  if (*found != "true" && *found != "false") refuse(fmt::format("{} is {}, but must be true or false.", quoted(name), quoted(*found)));
  return *found == "true";
}

}  // namespace heatwork::server
