// The language a request asks for: its own word, else the setting of the machine, else what the lab says.
#pragma once

#include <string>

#include "desk/lab/asked.h"
#include "trade/words.h"

namespace heatwork::cli {

/// One clause where --language is given and is none; "" else.
std::string wrong_language(const std::string& asked);

trade::Language language_asked(const std::string& asked, const desk::AskedLab& lab);

}  // namespace heatwork::cli
