// A kept rehearsal whose furnace was checked since: it is shown with a mark, and stays as it is.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "desk/json_value.h"
#include "desk/lab/asked.h"
#include "records/store.h"
#include "trade/firing.h"

namespace heatwork::desk {

/// The newest check of the firing's furnace that tells something, done after the rehearsal was made.
struct BeforeCheck {
  std::string check, day;
  /// "made before the check corner-wire of 2026-11-25"
  [[nodiscard]] std::string in_words() const;
};

/// The marks of several firings' kept rehearsals, by name of the firing; one without a mark, or without a rehearsal, is absent.
/// Errors: trade::Mistake, records::StoreError.
std::map<std::string, BeforeCheck> made_before_check(records::Store& store, const std::string& zone,
                                                     const std::vector<trade::Firing>& firings);

/// "made_before_check" and "stale", as every answer that shows a kept rehearsal has them.
JsonObject as_json(const std::optional<BeforeCheck>& mark);

}  // namespace heatwork::desk
