// The parts of a furnace's report in words, for text and sheet alike.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/furnace_care_report.h"

namespace heatwork::desk {

/// What a kept check found, "error +3.2 K ± 2.4 K, limit 10 K (lab)".
std::string found_in_words(const trade::Check& check);
/// "good", "not good", "cannot tell"
std::string came_in_words(const trade::Check& check);
/// The limit and whose it is; "" where none decides.
std::string limit_of_check(const trade::Check& check);
std::string_view state_word(furnace_care::QualificationLine::State state);

/// Name and value of what the furnace's file says, as installed.
std::vector<std::pair<std::string, std::string>> installed_in_words(const trade::Furnace& furnace);

/// The kept check of a line's index.
const trade::Check& kept_check(const FurnaceReport& report, std::size_t qualifying);
std::string day_of(const FurnaceReport& report, const trade::Check& check);

}  // namespace heatwork::desk
