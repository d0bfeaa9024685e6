// What this Heatwork is: program, model and data versions, and the words that stand before any use of it.
#pragma once

#include <string>
#include <string_view>

#include "trade/words.h"

namespace heatwork::desk {

std::string_view program_version();
/// First 16 hexadecimal digits of the BLAKE2b-256 hash over all shipped files and their paths.
std::string data_version();
/// For the start page, each printed sheet and `--version`.
std::string disclaimer(trade::Language language = trade::Language::english);

}  // namespace heatwork::desk
