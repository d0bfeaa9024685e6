#include "desk/lab/furnace_report_words.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "desk/lab/furnace_chart_words.h"
#include "desk/lab/local_time.h"
#include "quantity/write.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

void also(std::string& text, const std::string& part) {
  text += (text.empty() ? "" : ", ") + part;
}

/// To the three digits that a check can tell.
double three_digits(double value) {
  if (value == 0) return 0;
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 2);
  return std::round(value / step) * step;
}

template <class T>
void also(std::string& text, const char* what, const trade::Maybe<T>& value) {
  if (value) also(text, fmt::format("{} {}", what, quantity::write(T::si(three_digits(value->value.si())))));
}

}  // namespace

std::string found_in_words(const trade::Check& check) {
  std::string text;
  if (check.error && check.standard_uncertainty) {
    also(text, fmt::format("error {} K ± {:.1f} K", signed_K(check.error->value.si()), 2 * check.standard_uncertainty->value.si()));
  } else if (check.error) {
    also(text, fmt::format("error {} K", signed_K(check.error->value.si())));
  }
  also(text, "spread", check.spread);
  also(text, "time constant", check.pump_time_constant);
  also(text, "lowest pressure", check.ultimate);
  also(text, "leak", check.leak);
  also(text, "gain", check.gain);
  also(text, "loss", check.loss);
  if (!check.verdict.empty() && check.verdict != came_in_words(check)) also(text, check.verdict);
  return text.empty() ? "-" : text;
}

std::string came_in_words(const trade::Check& check) {
  return trade::is_undecided(check) ? "cannot tell" : check.good ? "good" : "not good";
}

std::string limit_of_check(const trade::Check& check) {
  return check.limit ? fmt::format("{} (set by the lab)", quantity::write(check.limit->value)) : "";
}

std::string_view state_word(furnace_care::QualificationLine::State state) {
  constexpr std::array<std::string_view, 5> words = {"good", "not good", "cannot tell", "to be done", "not wanted again"};
  return words.at(static_cast<std::size_t>(state));
}

std::vector<std::pair<std::string, std::string>> installed_in_words(const trade::Furnace& furnace) {
  return {{"Name", furnace.label.empty() ? furnace.name : fmt::format("{} ({})", furnace.name, furnace.label)},
          {"Sensor", fmt::format("type {}", furnace.sensor_type)},
          {"Chamber", quantity::write(furnace.chamber_volume.value)},
          {"Highest temperature", quantity::write(furnace.maximum.value)},
          {"Mains", quantity::write(furnace.heating.nominal_mains.value)},
          {"Altitude", fmt::format("{:g} m", furnace.altitude.value.si())},
          {"Gauge", std::string(trade::choice_word(furnace.pump.gauge.value))},
          {"Correction keyed", fmt::format("{}, {}", quantity::write(furnace.correction_keyed.value),
                                           trade::choice_word(furnace.correction_convention.value))}};
}

const trade::Check& kept_check(const FurnaceReport& report, std::size_t qualifying) {
  return report.kept.checks[report.of_check[qualifying]];
}

std::string day_of(const FurnaceReport& report, const trade::Check& check) {
  return check.at.empty() ? "-" : local_day(utc_ms(check.at), report.zone);
}

}  // namespace heatwork::desk
