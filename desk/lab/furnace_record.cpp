#include "desk/lab/furnace_record.h"

#include <fmt/format.h>

#include <cmath>

#include "desk/errors.h"
#include "desk/lab/local_time.h"
#include "desk/lab/sample_table.h"
#include "trade/library.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

constexpr double ms_a_day = 86'400'000;

std::vector<std::string> samples_of(const std::string& furnace, std::string_view key, const RecordTyped& record) {
  const int ways = (record.readings.empty() ? 0 : 1) + (record.file.empty() ? 0 : 1) + (record.table.empty() ? 0 : 1);
  if (ways > 1)
    throw Failure(ErrorWord::bad_value, fmt::format("{}: the readings are typed and stand in a table too; one of the two goes.", key));
  if (ways == 0 || !record.readings.empty()) return record.readings;
  const std::string name = record.file.empty() ? "the table" : record.file;
  const SampleTable table = read_sample_table(name, record.file.empty() ? record.table : trade::source_from_file(record.file)->text);
  if (!table.furnace.empty() && table.furnace != furnace)
    throw Failure(ErrorWord::bad_value,
                  fmt::format("{} is a record of furnace {}, not of {}.", name, trade::for_message(table.furnace), furnace));
  return table.samples;
}

}  // namespace

void add_record(FurnaceCheckWords& words, std::string_view key, const RecordTyped& record) {
  const std::vector<std::string> samples = samples_of(words.furnace, key, record);
  if (!samples.empty()) words.answers.push_back({std::string(key), fmt::format("{}", fmt::join(samples, "; "))});
}

double day_of(std::int64_t at_ms) {
  return static_cast<double>(at_ms) / ms_a_day;
}

Json points_json(const std::vector<std::array<double, 2>>& points) {
  JsonList list;
  for (const auto& [time_s, value] : points) list.push_back(JsonList{time_s, std::round(1000.0 * value) / 1000.0});
  return list;
}

void tell_findings(CheckAnswer& answer, const std::string& verdict, furnace_care::CheckLevel level, const std::string& sentence,
                   const std::vector<furnace_care::CareFinding>& findings) {
  answer.level(level, sentence);
  answer.member("verdict", verdict);
  answer.line("Verdict", verdict);
  JsonList list;
  for (const furnace_care::CareFinding& finding : findings) {
    list.push_back(JsonObject{{"about", finding.about}, {"level", furnace_care::word(finding.level)}, {"sentence", finding.sentence}});
    if (finding.sentence != sentence) answer.line("Besides", fmt::format("{}: {}", furnace_care::word(finding.level), finding.sentence));
  }
  answer.member("findings", std::move(list));
}

Json forecast_json(const FurnaceCheckDraft& draft, const std::optional<furnace_care::LimitForecast>& forecast) {
  if (!forecast) return {};
  const std::string today = local_day(draft.now_ms, draft.zone);
  const auto day = [&](double ahead) { return day_after(today, static_cast<int>(std::lround(ahead))); };
  return JsonObject{{"days", forecast->days},
                    {"earliest_days", forecast->earliest_days},
                    {"latest_days", number_or_null(forecast->latest_days)},
                    {"day", day(forecast->days)},
                    {"earliest_day", day(forecast->earliest_days)},
                    {"latest_day", forecast->latest_days ? Json(day(*forecast->latest_days)) : Json()}};
}

}  // namespace heatwork::desk
