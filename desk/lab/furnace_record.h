// What checks from a record have in common: the record brought into a check's draft, and what its answer tells. Theirs alone.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/lab/furnace_check_answer.h"
#include "desk/lab/furnace_check_records.h"
#include "furnace_care/finding.h"
#include "furnace_care/forecast.h"

namespace heatwork::desk {

/// The readings of a record as an answer of a check, under this key; nothing where none are given. Errors: Failure, also where a table says
/// that it is of another furnace; trade::Mistake where its file cannot be read.
void add_record(FurnaceCheckWords& words, std::string_view key, const RecordTyped& record);

/// Days since 1970 as the models count them.
double day_of(std::int64_t at_ms);

Json points_json(const std::vector<std::array<double, 2>>& points);

/// Verdict, level and the findings one by one.
void tell_findings(CheckAnswer& answer, const std::string& verdict, furnace_care::CheckLevel level, const std::string& sentence,
                   const std::vector<furnace_care::CareFinding>& findings);

/// A forecast as days and as days of the calendar; null without one.
Json forecast_json(const FurnaceCheckDraft& draft, const std::optional<furnace_care::LimitForecast>& forecast);

}  // namespace heatwork::desk
