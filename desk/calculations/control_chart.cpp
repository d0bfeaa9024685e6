#include "metrology/control_chart.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"

namespace heatwork::desk {
namespace {

constexpr double usual_k = 0.5, usual_h = 3, usual_lambda = 0.2, usual_limit = 2.962;

constexpr std::array<Field, 2> cusum_parts = {{
    between_key("k", "slack, half the shift to be found", "sigma", 0, 100),
    positive_key("h", "limit", "sigma", 1e4),
}};
constexpr std::array<Field, 2> ewma_parts = {{
    positive_key("lambda", "weight of the newest value", "", 1),
    positive_key("limit", "L", "sigma", 100),
}};
constexpr std::array<Field, 5> chart_inputs = {{
    between_key("target", "value without drift", "", -1e6, 1e6),
    positive_key("sigma", "standard deviation of one value", "", 1e6),
    {.name = "values", .meaning = "in their order", .at_least = -1e6, .at_most = 1e6, .shape = Shape::numbers},
    {.name = "cusum",
     .meaning = "its setting; where not given k 0.5, h 3",
     .shape = Shape::object,
     .required = false,
     .parts = cusum_parts},
    {.name = "ewma",
     .meaning = "its setting; where not given lambda 0.2, limit 2.962",
     .shape = Shape::object,
     .required = false,
     .parts = ewma_parts},
}};

constexpr Field series(std::string_view name, std::string_view meaning, std::string_view unit) {
  return {.name = name, .meaning = meaning, .unit = unit, .shape = Shape::numbers};
}
constexpr Field alarm = null_answer_key("first_alarm", "number of the first value beyond, from 1", "");
constexpr std::array<Field, 3> cusum_answer = {
    {series("high", "sum of what lies above", "sigma"), series("low", "sum of what lies below", "sigma"), alarm}};
constexpr std::array<Field, 3> ewma_answer = {{series("value", "running mean", "of values"),
                                               series("half_width", "limit about the target, widening as it settles", "of values"), alarm}};
constexpr std::array<Field, 3> shewhart_answer = {{
    alarm,
    null_answer_key("rule", "of Western Electric: 1 beyond 3 sigma, 2 two of three beyond 2, 3 four of five beyond 1, 4 eight on one side",
                    ""),
    null_answer_key("beyond_three_sigma", "number of the first value beyond 3 sigma", ""),
}};
constexpr std::array<Field, 3> chart_outputs = {{
    {.name = "cusum", .meaning = "cumulative sums", .shape = Shape::object, .parts = cusum_answer},
    {.name = "ewma", .meaning = "exponentially weighted mean", .shape = Shape::object, .parts = ewma_answer},
    {.name = "shewhart", .meaning = "single values by four rules", .shape = Shape::object, .parts = shewhart_answer},
}};

Json list_of(const std::vector<double>& values) {
  return JsonList(values.begin(), values.end());
}
template <typename Number>
Json or_null(const std::optional<Number>& value) {
  return value ? Json(static_cast<double>(*value)) : Json();
}

Json answer_chart(const Inputs& in) {
  const std::vector<double> values = in.numbers("values");
  const double target = in.number("target"), sigma = in.number("sigma");
  const auto setting = [&](std::string_view chart, std::string_view key, double usual) {
    return in.has(chart) ? in.object(chart).number(key) : usual;
  };
  const metrology::Cusum sums =
      metrology::cusum_chart(values, target, sigma, setting("cusum", "k", usual_k), setting("cusum", "h", usual_h));
  const metrology::Ewma mean =
      metrology::ewma_chart(values, target, sigma, setting("ewma", "lambda", usual_lambda), setting("ewma", "limit", usual_limit));
  const metrology::Shewhart single = metrology::shewhart_chart(values, target, sigma);
  return JsonObject{
      {"cusum", JsonObject{{"high", list_of(sums.high)}, {"low", list_of(sums.low)}, {"first_alarm", or_null(sums.first_alarm)}}},
      {"ewma",
       JsonObject{{"value", list_of(mean.value)}, {"half_width", list_of(mean.half_width)}, {"first_alarm", or_null(mean.first_alarm)}}},
      {"shewhart", JsonObject{{"first_alarm", or_null(single.first_alarm)},
                              {"rule", or_null(single.rule)},
                              {"beyond_three_sigma", or_null(single.beyond_three_sigma)}}}};
}

constexpr std::array<std::string_view, 3> chart_words = {"cusum", "ewma", "shewhart"};
constexpr std::array<Field, 7> length_inputs = {{
    {.name = "chart", .meaning = "which chart", .shape = Shape::word, .words = chart_words},
    optional_key(between_key("k", "slack of a CUSUM", "sigma", 0, 5)),
    optional_key(positive_key("h", "limit of a CUSUM", "sigma", 20)),
    optional_key(between_key("lambda", "weight of an EWMA", "", 0.01, 1)),
    optional_key(positive_key("limit", "of an EWMA or a Shewhart chart", "sigma", 20)),
    between_key("shift", "of the mean, constant from the start", "sigma", -10, 10),
    between_key("sided", "1 or 2", "", 1, 2),
}};
constexpr std::array<Field, 1> length_outputs = {answer_key("average_run_length", "values to an alarm, on average", "")};

double needed(const Inputs& in, std::string_view key) {
  if (!in.has(key)) throw std::domain_error("the chart \"" + in.word("chart") + "\" needs \"" + std::string(key) + "\".");
  return in.number(key);
}

Json answer_length(const Inputs& in) {
  const std::string& word = in.word("chart");
  metrology::ChartSetting chart{metrology::ChartKind::shewhart, 0};
  std::vector<std::string_view> foreign = {"k", "h", "lambda"};
  if (word == "cusum") {
    chart = {metrology::ChartKind::cusum, needed(in, "h"), needed(in, "k")};
    foreign = {"lambda", "limit"};
  } else if (word == "ewma") {
    chart = {metrology::ChartKind::ewma, needed(in, "limit"), usual_k, needed(in, "lambda")};
    foreign = {"k", "h"};
  } else {
    chart.limit = needed(in, "limit");
  }
  for (const std::string_view key : foreign) {
    if (in.has(key)) throw std::domain_error("the chart \"" + word + "\" has no \"" + std::string(key) + "\".");
  }
  const double sided = in.number("sided");
  if (sided != 1 && sided != 2) throw std::domain_error("\"sided\" must be 1 or 2.");
  chart.two_sided = sided == 2;
  return JsonObject{{"average_run_length", metrology::average_run_length(chart, in.number("shift"))}};
}

}  // namespace

constinit const Calculation control_chart_calculation = {
    .name = "control-chart",
    .purpose = "whether repeated checks have drifted",
    .equation = "CUSUM, EWMA with its exact limits, Shewhart with four rules; beyond means more than.",
    .source = "Lucas 1982 to 1990",
    .inputs = chart_inputs,
    .outputs = chart_outputs,
    .exactly_one_of = {},
    .answer = answer_chart};

constinit const Calculation run_length_calculation = {
    .name = "run-length",
    .purpose = "checks to an alarm of a chart, on average",
    .equation = "integral equations at Gauss-Legendre nodes; EWMA with its settled limit, one-sided held at 0 from below.",
    .source = "Lucas 1982; Crowder 1987",
    .inputs = length_inputs,
    .outputs = length_outputs,
    .exactly_one_of = {},
    .answer = answer_length};

}  // namespace heatwork::desk
