#include "desk/lab/export_place.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "desk/errors.h"
#include "desk/lab/roles.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {

std::string place_for_export(const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  if (place.backups.empty())
    throw Failure(ErrorWord::wrong_use,
                  "The settings name no folder of backups, so an export has no place here: \"backups\" in settings.toml names one.");
  records::Store store = opened(place, Reading::only);
  needs_set_up(asker_of(place, store));
  std::error_code error;
  std::filesystem::create_directories(place.backups, error);
  if (error) throw Failure(ErrorWord::cannot_write, fmt::format("The folder {} cannot be made: {}.", place.backups, error.message()));
  std::string at = place.opening.who.at_utc;
  std::erase(at, ':');
  return (std::filesystem::path(place.backups) / fmt::format("export-{}.json", at)).string();
}

}  // namespace heatwork::desk
