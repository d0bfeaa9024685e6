// What whoever asks may do in a lab: look, fire, release, each with all before it; setting up is apart.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "trade/records.h"

namespace heatwork::desk {

/// Who asks, as the lab's store knows him.
struct Asker {
  std::string code;
  std::string known_by;         ///< "named", "setting", "log-in name", "password", "PIN"
  bool nobody_entered = false;  ///< the store holds no person: everybody may do everything
  struct Entered {
    trade::PersonRole role{};
    bool may_set_up = false;
    bool left = false;
  };
  std::optional<Entered> entered;  ///< absent: he is not entered
  bool password_is_due = false;    ///< the password must be said again before a release or setting up
};

/// "look", "fire", "release"
std::string_view word(trade::PersonRole role);

/// Reading needs neither. Errors: Failure not_allowed with one sentence that says who may; password_needed where the password is due.
void needs(const Asker& asker, trade::PersonRole role);
void needs_set_up(const Asker& asker);

}  // namespace heatwork::desk
