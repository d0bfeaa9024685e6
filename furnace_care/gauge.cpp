#include "furnace_care/gauge.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <vector>

#include "metrology/atmosphere.h"
#include "metrology/rate_of_rise.h"
#include "quantity/write.h"
#include "trade/choice_words.h"

namespace heatwork::furnace_care {
namespace {

using metrology::DialUnit;
using trade::GaugeKind;

// Weather moves the air by about 25 mbar either way (95 %). Standing: memory. source: field-memory
constexpr double weather_sd_mbar = 12.5;
constexpr double barometer_sd_mbar = 1.0;
constexpr double beyond_weather_mbar = 60.0;
constexpr std::string_view units_of_pressure = "mbar, hPa, kPa, Pa, mmHg, inHg";
constexpr double mmHg_mbar = 1.33322387415;
constexpr double inHg_mbar = 33.8638864;

struct UnitOfGauge {
  std::string_view word;
  DialUnit dial;
  double mbar;  ///< of one of it
};

UnitOfGauge unit_of(std::string_view word) {
  if (word == "kPa") return {word, DialUnit::kPa, 10.0};
  if (word == "Pa") return {word, DialUnit::mbar, 0.01};
  if (word == "mmHg") return {word, DialUnit::mmHg, mmHg_mbar};
  if (word == "inHg") return {word, DialUnit::inHg, inHg_mbar};
  if (word == "%") return {word, DialUnit::percent_of_ambient, 0.0};
  return {word, DialUnit::mbar, 1.0};  // mbar and hPa are the same
}

std::string moment_of(const trade::GaugeSample& sample, std::string_view record) {
  return fmt::format("{}, {}: {} {}", record, quantity::write(sample.after), quantity::write_number(sample.reading), sample.unit);
}

std::string air_words(const AirAround& air) {
  return air.by_barometer ? fmt::format("the barometer shows {:.0f} mbar", air.pressure_mbar)
                          : fmt::format("at {:.0f} m the air has about {:.0f} mbar", air.altitude_m, air.pressure_mbar);
}

}  // namespace

AirAround air_around(const std::optional<double>& barometer_mbar, double altitude_m) {
  const double standard_mbar = metrology::standard_atmosphere_Pa(altitude_m) / 100.0;
  if (!barometer_mbar) return {standard_mbar, weather_sd_mbar, false, altitude_m};
  if (std::abs(*barometer_mbar - standard_mbar) > beyond_weather_mbar)
    throw std::domain_error(
        fmt::format("The barometer shows {:.0f} mbar, but at {:.0f} m the air has about {:.0f} mbar; take the pressure of "
                    "the place itself, not one brought to sea level.",
                    *barometer_mbar, altitude_m, standard_mbar));
  return {*barometer_mbar, barometer_sd_mbar, true, altitude_m};
}

double absolute_mbar(const trade::GaugeSample& sample, GaugeKind gauge, const AirAround& air, std::string_view record) {
  const UnitOfGauge unit = unit_of(sample.unit);
  const bool percent = unit.dial == DialUnit::percent_of_ambient;
  if (percent != (gauge == GaugeKind::percent_of_ambient))
    throw std::domain_error(fmt::format("{}, but the gauge of this furnace is \"{}\", and that reads in {}.", moment_of(sample, record),
                                        trade::choice_word(gauge), percent ? units_of_pressure : "%"));
  if (gauge == GaugeKind::absolute) {
    const double mbar = sample.reading * unit.mbar;
    if (mbar <= air.pressure_mbar + beyond_weather_mbar) return mbar;
    throw std::domain_error(fmt::format("{} absolute is more than there is: {}; the gauge, its unit or the altitude is wrong.",
                                        moment_of(sample, record), air_words(air)));
  }
  const double below_mbar = percent ? sample.reading / 100.0 * air.pressure_mbar : sample.reading * unit.mbar;
  if (below_mbar >= air.pressure_mbar)
    throw std::domain_error(
        fmt::format("{} below the air leaves no pressure at all: {}; the unit, the altitude or the weather is another "
                    "(a barometer tells).",
                    moment_of(sample, record), air_words(air)));
  return metrology::absolute_of_dial_Pa(unit.word == "Pa" ? sample.reading / 100.0 : sample.reading, unit.dial, 100.0 * air.pressure_mbar) /
         100.0;
}

double step_mbar(std::span<const trade::GaugeSample> samples, const AirAround& air) {
  if (samples.empty()) return 0.0;
  std::vector<double> readings;
  for (const trade::GaugeSample& sample : samples) readings.push_back(sample.reading);
  const UnitOfGauge unit = unit_of(samples.front().unit);
  const double one_mbar = unit.dial == DialUnit::percent_of_ambient ? air.pressure_mbar / 100.0 : unit.mbar;
  return metrology::resolution_of(readings) * one_mbar;
}

double air_doubt_mbar(double absolute_mbar, GaugeKind gauge, const AirAround& air) {
  switch (gauge) {
    case GaugeKind::absolute:
      return 0.0;
    case GaugeKind::below_ambient:
      return air.sd_mbar;
    case GaugeKind::percent_of_ambient:
      break;
  }
  return air.sd_mbar * absolute_mbar / air.pressure_mbar;
}

}  // namespace heatwork::furnace_care
