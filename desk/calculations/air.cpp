#include <stdexcept>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "metrology/atmosphere.h"
#include "metrology/water_saturation.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 1> atmosphere_inputs = {between_key("altitude_m", "above sea level", "m", -500, 11000)};
constexpr std::array<Field, 1> atmosphere_outputs = {
    answer_key("pressure_hPa", "of the standard atmosphere; weather moves it by about 25", "hPa")};

Json answer_atmosphere(const Inputs& in) {
  return JsonObject{{"pressure_hPa", metrology::standard_atmosphere_Pa(in.number("altitude_m")) / 100}};
}

constexpr std::array<std::string_view, 5> dial_units = {"mmHg", "inHg", "mbar", "kPa", "percent of ambient"};
constexpr std::array<Field, 4> gauge_inputs = {{
    between_key("dial", "reading below ambient; larger is a deeper vacuum", "", 0, 2000),
    {.name = "unit", .meaning = "of the reading, below ambient", .shape = Shape::word, .words = dial_units},
    optional_key(between_key("altitude_m", "of the furnace, in the standard atmosphere", "m", -500, 11000)),
    optional_key(between_key("barometer_hPa", "ambient pressure at the furnace, not reduced to sea level", "hPa", 100, 1200)),
}};
constexpr std::array<Field, 1> gauge_outputs = {answer_key("absolute_mbar", "pressure in the chamber", "mbar")};
constexpr std::array<std::string_view, 1> altitude_keys = {"altitude_m"};
constexpr std::array<std::string_view, 1> barometer_keys = {"barometer_hPa"};
constexpr std::array<Together, 2> gauge_choice = {altitude_keys, barometer_keys};

Json answer_gauge(const Inputs& in) {
  const double ambient_Pa =
      in.has("barometer_hPa") ? 100 * in.number("barometer_hPa") : metrology::standard_atmosphere_Pa(in.number("altitude_m"));
  for (std::size_t i = 0; i < dial_units.size(); ++i) {
    if (in.word("unit") == dial_units[i]) {
      return JsonObject{
          {"absolute_mbar", metrology::absolute_of_dial_Pa(in.number("dial"), static_cast<metrology::DialUnit>(i), ambient_Pa) / 100}};
    }
  }
  throw std::logic_error("a dial unit passed its check and is not known");
}

constexpr std::array<Field, 1> water_inputs = {between_key("temperature_C", "of the water", "°C", 0, 373.946)};
constexpr std::array<Field, 1> water_outputs = {answer_key("pressure_mbar", "at which water and its vapour stand together", "mbar")};

Json answer_water(const Inputs& in) {
  return JsonObject{{"pressure_mbar", metrology::water_saturation_Pa(in.number("temperature_C")) / 100}};
}

}  // namespace

constinit const Calculation standard_atmosphere_calculation = {.name = "standard-atmosphere",
                                                               .purpose = "pressure of the air at an altitude",
                                                               .equation = "p0 (T0 / (T0 - L H))^(-g M / (R L)), H = r z / (r + z).",
                                                               .source = "U.S. Standard Atmosphere 1976",
                                                               .inputs = atmosphere_inputs,
                                                               .outputs = atmosphere_outputs,
                                                               .exactly_one_of = {},
                                                               .answer = answer_atmosphere};

constinit const Calculation gauge_pressure_calculation = {
    .name = "gauge-pressure",
    .purpose = "absolute pressure behind a vacuum dial",
    .equation = "absolute = ambient - dial; 1 mmHg = 133.322387415 Pa, 1 inHg = 25.4 mmHg.",
    .source = "units of the SI brochure",
    .inputs = gauge_inputs,
    .outputs = gauge_outputs,
    .exactly_one_of = gauge_choice,
    .answer = answer_gauge};

constinit const Calculation water_saturation_calculation = {.name = "water-saturation",
                                                            .purpose = "pressure of water vapour over water",
                                                            .equation = "region 4 of the industrial formulation, a quadratic in p^(1/4).",
                                                            .source = "IAPWS-IF97",
                                                            .inputs = water_inputs,
                                                            .outputs = water_outputs,
                                                            .exactly_one_of = {},
                                                            .answer = answer_water};

}  // namespace heatwork::desk
