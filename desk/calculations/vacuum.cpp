#include <array>
#include <stdexcept>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "metrology/pump_down.h"
#include "metrology/rate_of_rise.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 2> pressure_columns = {between_key("s", "time", "s", -longest_s, longest_s),
                                                   between_key("mbar", "absolute pressure in the chamber", "mbar", 0, 10000)};
constexpr Field samples_key(std::string_view meaning, std::size_t fewest) {
  return {.name = "samples",
          .meaning = meaning,
          .shape = Shape::rows,
          .rising = true,
          .fewest = fewest,
          .most = 20000,
          .parts = pressure_columns};
}

constexpr std::array<Field, 2> pump_inputs = {{
    positive_key("volume_L", "of chamber and lines", "L", 1e7),
    samples_key("of the falling pressure; fitted from 300 mbar down where at least 4 stand there", 3),
}};
constexpr std::array<Field, 3> pump_outputs = {{
    answer_key("time_constant_s", "of the fall", "s"),
    answer_key("speed_L_per_s", "volume over time constant", "L/s"),
    answer_key("ultimate_mbar", "pressure the pump would end at", "mbar"),
}};

Json answer_pump(const Inputs& in) {
  const std::vector<double> times_s = in.column("samples", 0), pressures_mbar = in.column("samples", 1);
  const metrology::PumpDown pump = metrology::fit_pump_down(times_s, pressures_mbar);
  return JsonObject{{"time_constant_s", pump.time_constant_s},
                    {"speed_L_per_s", in.number("volume_L") / pump.time_constant_s},
                    {"ultimate_mbar", pump.ultimate_mbar}};
}

constexpr std::array<std::string_view, 5> rise_words = {"leak", "outgassing", "water", "mixed", "undecided"};
constexpr std::array<Field, 3> rise_inputs = {{
    optional_key(positive_key("volume_L", "of chamber and lines", "L", 1e7)),
    between_key("room_C", "of the coldest wet surface, usually the room", "°C", 0, 60),
    samples_key("of the rising pressure, pump off and shut, chamber at one temperature", 2),
}};
constexpr std::array<Field, 9> rise_outputs = {{
    {.name = "verdict", .meaning = "what comes in", .shape = Shape::word, .words = rise_words},
    optional_key(null_answer_key("leak_mbar_L_per_s", "that does not stop, where a volume is given", "mbar L/s")),
    optional_key(null_answer_key("leak_mbar_per_s", "the same without a volume", "mbar/s")),
    null_answer_key("outgassing_mbar", "that comes and stops", "mbar"),
    null_answer_key("outgassing_time_s", "time constant of that", "s"),
    null_answer_key("plateau_mbar", "where the pressure would stop without the leak", "mbar"),
    null_answer_key("late_over_early", "slope of the last fifth over that of the first", ""),
    {.name = "leak_range",
     .meaning = "low and high of the leak in its unit, 95 %; empty where there is none",
     .shape = Shape::numbers,
     .fewest = 0,
     .most = 2},
    {.name = "rises", .meaning = "false where a constant describes the record best", .shape = Shape::truth},
}};

Json or_null(const std::optional<double>& value, double times = 1) {
  return value ? Json(*value * times) : Json();
}

Json answer_rise(const Inputs& in) {
  const std::vector<double> times_s = in.column("samples", 0), pressures_mbar = in.column("samples", 1);
  const metrology::Rise rise = metrology::judge_rise(times_s, pressures_mbar, in.number("room_C"));
  const double volume = in.number_or("volume_L", 1);
  JsonList range;
  if (rise.leak_low_mbar_per_s) range = {*rise.leak_low_mbar_per_s * volume, *rise.leak_high_mbar_per_s * volume};
  return JsonObject{{"verdict", std::string(rise_words[static_cast<std::size_t>(rise.verdict)])},
                    {in.has("volume_L") ? "leak_mbar_L_per_s" : "leak_mbar_per_s", or_null(rise.leak_mbar_per_s, volume)},
                    {"outgassing_mbar", or_null(rise.outgassing_mbar)},
                    {"outgassing_time_s", or_null(rise.outgassing_time_s)},
                    {"plateau_mbar", or_null(rise.plateau_mbar)},
                    {"late_over_early", or_null(rise.late_over_early)},
                    {"leak_range", std::move(range)},
                    {"rises", rise.rises}};
}

}  // namespace

constinit const Calculation pump_down_calculation = {
    .name = "pump-down",
    .purpose = "time constant, speed and limit of a pump",
    .equation = "p = ultimate + (p0 - ultimate) exp(-t / tau), least squares; speed V / tau.",
    .source = "vacuum textbook",
    .inputs = pump_inputs,
    .outputs = pump_outputs,
    .exactly_one_of = {},
    .answer = answer_pump};

constinit const Calculation rate_of_rise_calculation = {
    .name = "rate-of-rise",
    .purpose = "leak, outgassing or water in a shut chamber",
    .equation = "p = p0 + (Q/V) t + A (1 - exp(-t / tau)), or fewer of its terms, chosen by BIC.",
    .source = "vacuum textbook; IAPWS-IF97",
    .inputs = rise_inputs,
    .outputs = rise_outputs,
    .exactly_one_of = {},
    .answer = answer_rise};

}  // namespace heatwork::desk
