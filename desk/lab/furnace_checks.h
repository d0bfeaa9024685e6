// The kept checks of one furnace, read from the store: one walk for whoever asks after them.
#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "records/store.h"
#include "trade/records.h"

namespace heatwork::desk {

/// A kept check with the text it was read from.
struct CheckRead {
  std::shared_ptr<const trade::Check> check;
  records::Document document;
  std::int64_t at_ms = 0;
};

/// Which of them are wanted.
struct ChecksAsked {
  std::string furnace;
  std::string state = {};  ///< "good", "going on"; empty: any
  std::int64_t until_ms = std::numeric_limits<std::int64_t>::max();
};

/// Gives them newest first, those of one moment by the order they were kept in, until `go_on` says false. Errors: trade::Mistake where one
/// cannot be read.
void walk_checks(records::Store& store, const ChecksAsked& asked, const std::function<bool(const CheckRead&)>& go_on);

/// The finished checks of a furnace in order of time, oldest first; those of one moment in the order they were kept. Errors: Failure
/// unknown_name where the store keeps neither the furnace nor a check of it; trade::Mistake where one cannot be read.
std::vector<trade::Check> checks_of_furnace(records::Store& store, const std::string& furnace);

}  // namespace heatwork::desk
