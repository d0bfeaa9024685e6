// The persons of a lab: entered by code with a role; what tells who they are stands apart, where it can be erased.
#pragma once

#include <optional>
#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

/// What is said of a person; what is absent stays as it is.
struct PersonWords {
  std::string code;
  std::optional<std::string> role;        ///< "look", "fire", "release"
  std::optional<std::string> may_set_up;  ///< "yes", "no"
  std::optional<bool> left;
  std::optional<std::string> name, contact;  ///< personal data; empty: taken away
  std::string reason;
};

// Errors of all: Failure, records::Conflict; then nothing was kept.

CareAnswer add_person(const AskedLab& asked, const PersonWords& words);
/// Role, right to set up, left.
CareAnswer change_person(const AskedLab& asked, const PersonWords& words);
/// Name and contact.
CareAnswer change_personal(const AskedLab& asked, const PersonWords& words);
/// Erases name and contact; the code stays.
CareAnswer forget_person(const AskedLab& asked, const std::string& code, const std::string& reason);
/// Name and contact only for those who may set up, and for the person himself.
CareAnswer show_person(const AskedLab& asked, const std::string& code);
/// Who the one who asks is taken for, from where, and what he may do.
CareAnswer who_am_i(const AskedLab& asked);

}  // namespace heatwork::desk
