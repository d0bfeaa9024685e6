#include "desk/lab/personal_data.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/errors.h"
#include "desk/json_value.h"

namespace heatwork::desk {
namespace {

constexpr std::size_t longest = 200;  // [byte]

std::string text_in(const Json& object, std::string_view key) {
  const Json* found = object.find(key);
  return found != nullptr && found->text() != nullptr ? *found->text() : "";
}

std::string one_line(std::string_view option, const std::string& typed) {
  const bool control = std::any_of(typed.begin(), typed.end(), [](char letter) { return static_cast<unsigned char>(letter) < ' '; });
  if (typed.size() > longest || control)
    throw Failure(ErrorWord::bad_value, fmt::format("{} must be one line of at most {} bytes. Nothing was kept.", option, longest));
  return typed;
}

}  // namespace

PersonalData personal_data(const std::string& code, const std::string& text) {
  try {
    const Json read = read_json("personal data of " + code, text);
    if (read.object() != nullptr) return {text_in(read, "name"), text_in(read, "contact"), text_in(read, "password"), text_in(read, "pin")};
  } catch (const Failure&) {
    // Said below without a word of what stands there.
  }
  throw Failure(ErrorWord::store_damaged, fmt::format("Personal data of {} cannot be read. \"heatwork store verify\" tells more.", code));
}

std::string text_of(const PersonalData& data) {
  JsonObject object{{"format", 1}};
  if (!data.name.empty()) object.push_back({"name", data.name});
  if (!data.contact.empty()) object.push_back({"contact", data.contact});
  if (!data.password.empty()) object.push_back({"password", data.password});
  if (!data.pin.empty()) object.push_back({"pin", data.pin});
  return write_json(object);
}

PersonalData with(PersonalData data, const std::optional<std::string>& name, const std::optional<std::string>& contact) {
  if (name) data.name = one_line("The name", *name);
  if (contact) data.contact = one_line("The contact", *contact);
  return data;
}

bool may_see_personal(const Asker& asker, const std::string& code) {
  if (asker.nobody_entered) return true;
  return asker.entered && !asker.entered->left && (asker.entered->may_set_up || asker.code == code);
}

std::string known_by_in_words(const std::string& known_by) {
  return known_by == "named" ? "--as" : "the " + known_by;
}

}  // namespace heatwork::desk
