// The furnaces of a firing as the lab's kept checks know them: found by furnace in the store, once for each request.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "desk/lab/store_place.h"
#include "records/store.h"
#include "trade/firing.h"

namespace heatwork::desk {

/// The moment a rehearsal is made at, and how its days are told.
struct RehearsedAt {
  std::int64_t now_ms = 0;
  std::string zone = "UTC";
};
RehearsedAt rehearsed_at(const StorePlace& place);

/// A furnace of a firing that was typed over what the store keeps.
struct FurnaceTyped {
  std::string name;
  int version = 0;  ///< of the text it was typed over
};

/// Takes the furnaces of a firing, and of those before it that were not started, as their newest checks know them on the day of the firing:
/// when it was started, else when it is planned for, else now. Only furnaces the store keeps; of one that was found beside a file nothing
/// is asked. The checks used join `used` and `came_from`. Errors: trade::Mistake, records::StoreError.
void know_furnaces(records::Store& store, const RehearsedAt& at, trade::ResolvedFiring& found,
                   const std::optional<FurnaceTyped>& typed = std::nullopt);

/// The same by these checks alone, each with its text: those a firing was started or is kept with.
void know_furnaces_by(records::Store& store, const RehearsedAt& at, const std::vector<trade::TextUsed>& texts, trade::ResolvedFiring& found,
                      const std::optional<FurnaceTyped>& typed = std::nullopt);

/// A check that tells of its furnace: finished, decided, and with a value that a rehearsal takes.
bool tells_of_furnace(const trade::Check& check);

}  // namespace heatwork::desk
