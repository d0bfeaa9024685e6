// Which store is meant and who asks, as typed: what every question to a lab comes with.
#pragma once

#include <string>

namespace heatwork::desk {

struct AskedLab {
  std::string store;             ///< address; empty: that of the machine, see desk/lab/settings.h
  std::string person;            ///< code; empty: the setting, else the system's log-in name
  std::string known_by{};        ///< "password", "PIN" of somebody who signed in; empty: by that name alone
  bool password_is_due = false;  ///< the password lies back too long, or was none: neither releases nor sets up
};

}  // namespace heatwork::desk
