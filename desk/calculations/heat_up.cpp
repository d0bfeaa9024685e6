#include <array>
#include <cmath>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "metrology/heating_run.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 2> new_parts = {{
    positive_key("gain_K_per_s", "when new, at nominal mains", "K/s", 100),
    positive_key("loss_per_s", "when new", "1/s", 1),
}};
constexpr std::array<std::string_view, 6> verdict_words = {"healthy",    "element ageing", "replace element",
                                                           "insulation", "held back",      "cannot tell"};
constexpr Field run_samples() {
  Field field = temperature_history_key("samples", "of the display at full power; the first 60 s and what is below 200 °C are left out");
  field.most = 5000;
  return field;
}
constexpr std::array<Field, 5> heat_up_inputs = {{
    between_key("room_C", "around the furnace", "°C", -20, 60),
    positive_key("mains_V", "voltage during the run", "V", 1000),
    positive_key("nominal_V", "voltage the furnace is made for", "V", 1000),
    run_samples(),
    {.name = "when_new", .meaning = "what the muffle was", .shape = Shape::object, .required = false, .parts = new_parts},
}};
constexpr std::array<Field, 11> heat_up_outputs = {{
    answer_key("gain_K_per_s", "rate at room temperature, at the mains of the run", "K/s"),
    answer_key("gain_at_nominal_K_per_s", "the same at nominal mains", "K/s"),
    answer_key("loss_per_s", "rate lost for each kelvin above the room", "1/s"),
    null_answer_key("limit_C", "where the muffle would end, at the mains of the run", "°C"),
    null_answer_key("power_health", "gain at nominal mains over that when new", ""),
    null_answer_key("loss_health", "loss over that when new", ""),
    {.name = "verdict", .meaning = "of the muffle", .shape = Shape::word, .words = verdict_words},
    answer_key("gain_sd", "standard deviation of the gain", "K/s"),
    null_answer_key("loss_sd", "standard deviation of the loss", "1/s"),
    null_answer_key("held_until_C", "where a capped rate ends", "°C"),
    null_answer_key("moisture_dip_K", "what the muffle fell behind from 60 to 150 °C", "K"),
}};

Json finite_or_null(double value) {
  return std::isfinite(value) ? Json(value) : Json();
}
Json or_null(const std::optional<double>& value) {
  return value ? Json(*value) : Json();
}

Json answer_heat_up(const Inputs& in) {
  std::optional<metrology::GainAndLoss> when_new;
  if (in.has("when_new")) {
    const Inputs given = in.object("when_new");
    when_new = {given.number("gain_K_per_s"), given.number("loss_per_s")};
  }
  const std::vector<double> times_s = in.column("samples", 0), temperatures_C = in.column("samples", 1);
  const metrology::HeatingRun run =
      metrology::judge_heating_run(times_s, temperatures_C, in.number("room_C"), in.number("mains_V"), in.number("nominal_V"), when_new);
  return JsonObject{{"gain_K_per_s", run.measured.gain_K_per_s},
                    {"gain_at_nominal_K_per_s", run.gain_at_nominal_K_per_s},
                    {"loss_per_s", run.measured.loss_per_s},
                    {"limit_C", finite_or_null(run.limit_C)},
                    {"power_health", or_null(run.power_health)},
                    {"loss_health", or_null(run.loss_health)},
                    {"verdict", std::string(verdict_words[static_cast<std::size_t>(run.verdict)])},
                    {"gain_sd", run.gain_sd},
                    {"loss_sd", finite_or_null(run.loss_sd)},
                    {"held_until_C", or_null(run.held_until_C)},
                    {"moisture_dip_K", or_null(run.moisture_dip_K)}};
}

}  // namespace

constinit const Calculation heat_up_calculation = {
    .name = "heat-up",
    .purpose = "gain and loss of a muffle, and its health",
    .equation = "dT/dt = gain - loss (T - room), fitted as its exponential; gain by mains squared.",
    .source = "lumped heat balance",
    .inputs = heat_up_inputs,
    .outputs = heat_up_outputs,
    .exactly_one_of = {},
    .answer = answer_heat_up};

}  // namespace heatwork::desk
