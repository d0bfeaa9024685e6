// What the charts of a furnace's checks say, in words.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/lab/furnace_care_chart.h"

namespace heatwork::desk {

inline constexpr double days_per_month = 30.4375;

std::string_view how_often_word(furnace_care::HowOften how_often);
std::string_view run_begins_word(furnace_care::RunBegins begins);
std::string_view reason_word(furnace_care::ChartReason reason);
std::string_view change_word(metrology::DriftChange change);

/// "+1.2", "-0.4"
std::string signed_K(double value_K);
/// "checked about every 30 days"
std::string how_often_in_words(const ChartedFurnace& charted);

std::string checks_in_words(const ChartedFurnace& charted);
std::string charts_in_words(const ChartedFurnace& charted);
/// What each of the three charts says, a sentence each.
std::vector<std::string> signals_in_words(const ChartedFurnace& charted);
std::string alarms_in_words(const ChartedFurnace& charted);
std::string limit_in_words(const ChartedFurnace& charted);
/// One sentence a beginning after the first.
std::vector<std::string> runs_in_words(const ChartedFurnace& charted);
std::string forecast_in_words(const ChartedFurnace& charted);
/// Beside the row of a check; begins with two blanks where there is something to say.
std::string row_remark(const ChartedFurnace& charted, std::size_t check);

/// The day that many days after the last check, in the zone of the lab; empty where there is none, or beyond the furthest told.
std::string forecast_day(const ChartedFurnace& charted, const std::optional<double>& days);
/// The day of a check in the zone of the lab.
std::string day_of_check(const ChartedFurnace& charted, std::size_t check);

}  // namespace heatwork::desk
