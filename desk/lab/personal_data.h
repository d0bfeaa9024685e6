// What tells who a person is, as it stands in the store's table of personal data: apart from records and trail, so that it can be erased.
#pragma once

#include <optional>
#include <string>

#include "desk/lab/roles.h"

namespace heatwork::desk {

struct PersonalData {
  std::string name{}, contact{};  ///< empty: not kept
  std::string password{}, pin{};  ///< as Argon2id, see desk/lab/sign_in.h; never shown
  [[nodiscard]] bool empty() const { return name.empty() && contact.empty() && password.empty() && pin.empty(); }
};

/// Errors: Failure store_damaged.
PersonalData personal_data(const std::string& code, const std::string& text);
/// JSON with "format", "name", "contact", "password" and "pin"; what is not kept is left out.
std::string text_of(const PersonalData& data);

/// What is absent stays. Errors: Failure bad_value where a text is too long or more than a line.
PersonalData with(PersonalData data, const std::optional<std::string>& name, const std::optional<std::string>& contact);

/// Whether the one who asks is shown it: who may set up, and the person himself, where he has not left.
bool may_see_personal(const Asker& asker, const std::string& code);

/// "--as", "the setting", "the log-in name"
std::string known_by_in_words(const std::string& known_by);

}  // namespace heatwork::desk
