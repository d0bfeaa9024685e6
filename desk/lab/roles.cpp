#include "desk/lab/roles.h"

#include <fmt/format.h>

#include <array>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

constexpr std::array<std::string_view, 3> words{"look", "fire", "release"};

[[noreturn]] void refuse(const std::string& sentence) {
  throw Failure(ErrorWord::not_allowed, sentence);
}

void needs_password(const Asker& asker) {
  if (!asker.password_is_due) return;
  throw Failure(ErrorWord::password_needed,
                fmt::format("To release or to set up, person \"{}\" must say the password again. Nothing was kept.", asker.code));
}

/// Of somebody who is entered and has not left. Errors: Failure not_allowed.
const Asker::Entered& entered(const Asker& asker) {
  if (!asker.entered) {
    const std::string_view named = asker.known_by == "named" ? "" : "; name a person who is";
    refuse(fmt::format("Person \"{}\" ({}) is not entered in this store and may only read{}.", asker.code, asker.known_by, named));
  }
  if (asker.entered->left) refuse(fmt::format("Person \"{}\" has left and may only read.", asker.code));
  return *asker.entered;
}

}  // namespace

std::string_view word(trade::PersonRole role) {
  return words.at(static_cast<std::size_t>(role));
}

void needs(const Asker& asker, trade::PersonRole role) {
  if (asker.nobody_entered) return;
  const Asker::Entered& who = entered(asker);
  if (who.role >= role) {
    if (role == trade::PersonRole::release) needs_password(asker);
    return;
  }
  refuse(fmt::format("Person \"{}\" may {} but not {}; a person who may {} must do this.", asker.code, word(who.role), word(role),
                     word(role)));
}

void needs_set_up(const Asker& asker) {
  if (asker.nobody_entered) return;
  if (entered(asker).may_set_up) return needs_password(asker);
  refuse(fmt::format("Person \"{}\" may not set up; a person who may set up must do this.", asker.code));
}

}  // namespace heatwork::desk
