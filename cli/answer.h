// What the desk answered, given to the one who asked.
#pragma once

#include <functional>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"
#include "report/number.h"

namespace heatwork::cli {

/// Prints it as text or as JSON and gives the exit code.
int show(const desk::CareAnswer& answer, bool json);

/// The same of what `ask` answers or refuses, the temperatures of its text as machine or lab reads them; JSON stays as it is.
int show_measured(const desk::AskedLab& lab, const std::function<desk::CareAnswer()>& ask, bool json);

/// As machine or lab reads temperatures.
report::TemperatureScale units_asked(const desk::AskedLab& lab);

}  // namespace heatwork::cli
