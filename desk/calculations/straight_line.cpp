#include "metrology/straight_line.h"

#include <array>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"

namespace heatwork::desk {
namespace {

constexpr Field list_key(std::string_view name, std::string_view meaning) {
  return {.name = name, .meaning = meaning, .at_least = -1e9, .at_most = 1e9, .shape = Shape::numbers, .fewest = 3};
}

constexpr std::array<Field, 4> line_inputs = {{
    list_key("x", "where was measured"),
    list_key("y", "what was measured"),
    between_key("origin", "place of the intercept", "", -1e9, 1e9),
    between_key("at", "place of the prediction", "", -1e9, 1e9),
}};
constexpr std::array<Field, 8> line_outputs = {{
    answer_key("intercept", "y of the line at the origin", ""),
    answer_key("slope", "of the line", ""),
    answer_key("intercept_u", "standard uncertainty", ""),
    answer_key("slope_u", "standard uncertainty", ""),
    answer_key("correlation", "between intercept and slope", ""),
    answer_key("residual_sd", "scatter about the line, n - 2 degrees of freedom", ""),
    answer_key("predicted", "y of the line at the place asked for", ""),
    answer_key("predicted_u", "standard uncertainty", ""),
}};

Json answer_line(const Inputs& in) {
  const std::vector<double> x = in.numbers("x"), y = in.numbers("y");
  const metrology::StraightLine line = metrology::fit_straight_line(x, y, in.number("origin"));
  const metrology::Predicted there = metrology::line_at(line, in.number("at"));
  return JsonObject{{"intercept", line.intercept},     {"slope", line.slope},
                    {"intercept_u", line.intercept_u}, {"slope_u", line.slope_u},
                    {"correlation", line.correlation}, {"residual_sd", line.residual_sd},
                    {"predicted", there.value},        {"predicted_u", there.uncertainty}};
}

}  // namespace

constinit const Calculation straight_line_calculation = {
    .name = "straight-line",
    .purpose = "line through points, with its uncertainty",
    .equation = "least squares; u of intercept, slope and prediction with their correlation.",
    .source = "GUM (JCGM 100:2008) H.3",
    .inputs = line_inputs,
    .outputs = line_outputs,
    .exactly_one_of = {},
    .answer = answer_line};

}  // namespace heatwork::desk
