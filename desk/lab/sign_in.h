// What persons sign in by at the page: a password, and a PIN for a quick change at a shared tablet; kept only as Argon2id, among personal
// data.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"
#include "trade/records.h"

namespace heatwork::desk {

enum class Secret { password, pin };

/// "password", "PIN"
std::string_view word(Secret secret);

struct SecretWords {
  std::string code;
  Secret which = Secret::password;
  std::string typed;  ///< empty: none any more
  std::string reason;
};
/// Keeps it for a person who is entered. Errors: Failure, records::StoreError; then nothing was kept.
CareAnswer keep_secret(const AskedLab& asked, const SecretWords& words);

/// A person as the store has him now.
struct PersonNow {
  std::string code;
  trade::PersonRole role{};
  bool may_set_up = false, left = false;
  bool has_password = false, has_pin = false;
  std::string mark;  ///< another one when the password changes; tells nothing of it
};
/// Nothing where nobody of this code is entered, or no store stands. Errors: Failure, records::StoreError.
std::optional<PersonNow> person_now(const AskedLab& asked, const std::string& code);

/// Whether somebody who has not left has a password: then whoever comes by the page must sign in.
bool somebody_has_password(const AskedLab& asked);

/// The person where code and secret are right; nothing where one is wrong, in the same time whichever it is. At most two are computed at
/// once, 64 MB each. Errors: Failure busy where too many wait already.
std::optional<PersonNow> signs_in(const AskedLab& asked, const std::string& code, Secret which, const std::string& typed);

}  // namespace heatwork::desk
