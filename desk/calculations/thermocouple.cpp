#include "metrology/thermocouple.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"

namespace heatwork::desk {
namespace {

constexpr std::array<std::string_view, 5> type_words = {"S", "R", "B", "K", "N"};
constexpr Field type_key = {.name = "type", .meaning = "of the thermocouple", .shape = Shape::word, .words = type_words};

metrology::ThermocoupleType type_of(const Inputs& in) {
  return static_cast<metrology::ThermocoupleType>(std::find(type_words.begin(), type_words.end(), in.word("type")) - type_words.begin());
}

constexpr std::array<Field, 4> thermocouple_inputs = {{
    type_key,
    optional_key(temperature_key("temperature_C", "of the hot junction, for the voltage against a cold junction at 0 °C")),
    optional_key(between_key("emf_mV", "voltage as measured", "mV", -1000, 1000)),
    optional_key(between_key("cold_junction_C", "temperature where the thermocouple meets copper", "°C", -20, 100)),
}};
constexpr std::array<Field, 3> thermocouple_outputs = {{
    optional_key(answer_key("emf_mV", "at the temperature given, cold junction at 0 °C", "mV")),
    optional_key(answer_key("slope_uV_per_K", "there", "µV/K")),
    optional_key(answer_key("temperature_C", "of the voltage given", "°C")),
}};
constexpr std::array<std::string_view, 1> forward_keys = {"temperature_C"};
constexpr std::array<std::string_view, 2> reading_keys = {"emf_mV", "cold_junction_C"};
constexpr std::array<Together, 2> thermocouple_choice = {forward_keys, reading_keys};

Json answer_thermocouple(const Inputs& in) {
  const metrology::ThermocoupleType type = type_of(in);
  if (in.has("emf_mV")) {
    return JsonObject{{"temperature_C", metrology::thermocouple_temperature_C(type, in.number("emf_mV"), in.number("cold_junction_C"))}};
  }
  const double temperature_C = in.number("temperature_C");
  return JsonObject{{"emf_mV", metrology::thermocouple_emf_mV(type, temperature_C)},
                    {"slope_uV_per_K", 1000 * metrology::thermocouple_slope_mV_per_K(type, temperature_C)}};
}

constexpr std::array<Field, 3> tolerance_inputs = {{
    type_key,
    between_key("class", "tolerance class of new wire, 1, 2 or 3", "", 1, 3),
    temperature_key("temperature_C", "of the hot junction"),
}};
constexpr std::array<Field, 1> tolerance_outputs = {
    answer_key("tolerance_K", "that new wire may deviate, up and down; use makes it worse", "K")};

Json answer_tolerance(const Inputs& in) {
  const double given = in.number("class");
  const int tolerance_class = static_cast<int>(given);
  if (tolerance_class != given) throw std::domain_error("\"class\" must be 1, 2 or 3.");
  return JsonObject{{"tolerance_K", metrology::thermocouple_tolerance_K(type_of(in), tolerance_class, in.number("temperature_C"))}};
}

}  // namespace

constinit const Calculation thermocouple_calculation = {
    .name = "thermocouple",
    .purpose = "voltage of a thermocouple, and its temperature",
    .equation = "E(t) of ITS-90 by pieces; back by Newton on emf + E(cold junction), never by adding temperatures.",
    .source = "NIST SRD 60, IEC 60584-1",
    .inputs = thermocouple_inputs,
    .outputs = thermocouple_outputs,
    .exactly_one_of = thermocouple_choice,
    .answer = answer_thermocouple};

constinit const Calculation thermocouple_tolerance_calculation = {
    .name = "thermocouple-tolerance",
    .purpose = "what new thermocouple wire may deviate",
    .equation = "the greater of a constant and a share of the temperature in °C, by type and class.",
    .source = "IEC 60584-1",
    .inputs = tolerance_inputs,
    .outputs = tolerance_outputs,
    .exactly_one_of = {},
    .answer = answer_tolerance};

}  // namespace heatwork::desk
