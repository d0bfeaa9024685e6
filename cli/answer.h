// What the desk answered, given to the one who asked.
#pragma once

#include "desk/lab/store_care.h"

namespace heatwork::cli {

/// Prints it as text or as JSON and gives the exit code.
int show(const desk::CareAnswer& answer, bool json);

}  // namespace heatwork::cli
