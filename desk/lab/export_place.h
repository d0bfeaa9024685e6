// Where an export of a lab stands that nobody named a file for.
#pragma once

#include <string>

#include "desk/lab/asked.h"

namespace heatwork::desk {

/// Among the backups, named by the time. Asked of who may set up, for it holds personal data. Errors: Failure wrong_use where the settings
/// name no folder of backups; not_allowed, password_needed.
std::string place_for_export(const AskedLab& asked);

}  // namespace heatwork::desk
