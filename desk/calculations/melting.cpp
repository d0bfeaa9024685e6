#include <array>
#include <cmath>
#include <stdexcept>

#include "desk/calculations/keys.h"
#include "desk/calculations/models.h"
#include "metrology/melt_curve.h"
#include "metrology/melting_threshold.h"
#include "metrology/silver.h"

namespace heatwork::desk {
namespace {

constexpr std::array<Field, 2> silver_inputs = {{
    between_key("oxygen_atm", "pressure of oxygen around the silver; air at sea level has 0.2095", "atm", 0, 1),
    optional_key(between_key("oxygen_solubility", "share of oxygen atoms in molten silver at 1 atm; where not given 0.019884", "", 0, 0.1)),
}};
constexpr std::array<Field, 1> silver_outputs = {answer_key("temperature_C", "at which silver melts", "°C")};

Json answer_silver(const Inputs& in) {
  return JsonObject{{"temperature_C", metrology::silver_melting_C(in.number("oxygen_atm"),
                                                                  in.number_or("oxygen_solubility", metrology::usual_oxygen_solubility))}};
}

constexpr std::array<std::string_view, 5> advice_words = {"test next", "repeat", "leave", "correct", "stop use"};
constexpr std::array<Field, 2> trial_parts = {{
    temperature_key("display_C", "highest display of the firing"),
    {.name = "melted", .meaning = "whether the fresh wire melted", .shape = Shape::truth},
}};
constexpr std::array<Field, 6> melt_inputs = {{
    between_key("melting_C", "true melting temperature of the wire in its gas", "°C", 100, 2000),
    optional_key(between_key("prior_mean_C", "display expected to melt it, before the test; where not given melting_C", "°C", 100, 2200)),
    between_key("prior_sd_K", "standard deviation of that display; 12 for a furnace never checked, 6 after a recent check", "K", 0.1, 60),
    optional_key(
        between_key("spread_K", "of the display at which a wire melts; where not given unknown, six values from 1 to 6 K", "K", 0.1, 50)),
    optional_key(between_key("lapse", "share of readings that say nothing; where not given 0.02", "", 0, 0.5)),
    {.name = "trials", .meaning = "in their order; may be empty", .shape = Shape::objects, .fewest = 0, .most = 200, .parts = trial_parts},
}};
constexpr std::array<Field, 10> melt_outputs = {{
    answer_key("threshold_C", "display at which half of the wires melt, mean", "°C"),
    answer_key("sd_K", "standard deviation of that", "K"),
    answer_key("median_C", "of the same", "°C"),
    {.name = "interval_C", .meaning = "low and high, 95 %", .unit = "°C", .shape = Shape::numbers, .fewest = 2, .most = 2},
    answer_key("offset_K", "threshold - melting_C; above 0 the display reads too high", "K"),
    null_answer_key("next_display_C", "level of the next firing", "°C"),
    {.name = "advice", .meaning = "what to do now", .shape = Shape::word, .words = advice_words},
    answer_key("poor_spread_share", "chance that the spread is 4 K or more; above 0.5 before the fifth firing: repeat", ""),
    {.name = "contradictory", .meaning = "whether a wire stayed whole at or above a display where another melted", .shape = Shape::truth},
    answer_key("firings", "that were told", ""),
}};

Json answer_melt_test(const Inputs& in) {
  metrology::MeltPrior prior{};
  prior.melting_C = in.number("melting_C");
  prior.mean_C = in.number_or("prior_mean_C", prior.melting_C);
  prior.sd_K = in.number("prior_sd_K");
  if (in.has("spread_K")) prior.spread_K = in.number("spread_K");
  prior.lapse = in.number_or("lapse", prior.lapse);
  std::vector<metrology::MeltTrial> trials;
  for (const Inputs& trial : in.objects("trials")) trials.push_back({trial.number("display_C"), trial.truth("melted")});
  const metrology::MeltEstimate found = metrology::estimate_melt_threshold(prior, trials);
  return JsonObject{{"threshold_C", found.threshold_C},
                    {"sd_K", found.sd_K},
                    {"median_C", found.median_C},
                    {"interval_C", JsonList{found.low_C, found.high_C}},
                    {"offset_K", found.offset_K},
                    {"next_display_C", found.next_display_C ? Json(*found.next_display_C) : Json()},
                    {"advice", std::string(advice_words[static_cast<std::size_t>(found.advice)])},
                    {"poor_spread_share", found.poor_spread_share},
                    {"contradictory", found.contradictory},
                    {"firings", static_cast<double>(trials.size())}};
}

constexpr std::array<std::string_view, 2> link_words = {"logit", "probit"};
constexpr std::array<Field, 3> count_parts = {{
    temperature_key("display_C", "level of the firings"),
    between_key("tested", "wires at this level", "", 1, 1e6),
    between_key("melted", "of them", "", 0, 1e6),
}};
constexpr std::array<Field, 2> curve_inputs = {{
    {.name = "link", .meaning = "shape of the curve", .shape = Shape::word, .words = link_words},
    {.name = "trials", .meaning = "a level each", .shape = Shape::objects, .fewest = 1, .parts = count_parts},
}};
constexpr std::array<Field, 7> curve_outputs = {{
    answer_key("intercept", "of the link of the share, at 0 °C", ""),
    answer_key("slope", "of the same", "1/K"),
    answer_key("midpoint_C", "where half melt", "°C"),
    answer_key("spread_K", "1 / slope: the standard deviation of the probit, the scale of the logit", "K"),
    answer_key("deviance", "of the fit", ""),
    answer_key("intercept_se", "standard error", ""),
    answer_key("slope_se", "standard error", "1/K"),
}};

Json answer_melt_curve(const Inputs& in) {
  std::vector<metrology::MeltCount> counts;
  for (const Inputs& level : in.objects("trials"))
    counts.push_back({level.number("display_C"), level.number("tested"), level.number("melted")});
  const auto link = in.word("link") == "logit" ? metrology::MeltLink::logit : metrology::MeltLink::probit;
  const metrology::MeltCurve fit = metrology::fit_melt_curve(link, counts);
  return JsonObject{{"intercept", fit.intercept}, {"slope", fit.slope},       {"midpoint_C", fit.midpoint_C},
                    {"spread_K", fit.spread_K},   {"deviance", fit.deviance}, {"intercept_se", fit.intercept_se},
                    {"slope_se", fit.slope_se}};
}

}  // namespace

constinit const Calculation silver_melting_calculation = {
    .name = "silver-melting",
    .purpose = "where silver melts, by the oxygen around it",
    .equation = "ln(1 - x1 root(p)) = -(H/R)(1/T - 1/Tm), H 11.3 kJ/mol, Tm 1234.93 K.",
    .source = "ITS-90; cryoscopy, computed",
    .inputs = silver_inputs,
    .outputs = silver_outputs,
    .exactly_one_of = {},
    .answer = answer_silver};

constinit const Calculation melt_test_calculation = {
    .name = "melt-test",
    .purpose = "display error from wires that melted or not",
    .equation = "chance = lapse/2 + (1 - lapse) Phi((display - threshold)/spread), Bayes on a grid; next level by least expected entropy.",
    .source = "Kontsevich and Tyler 1999",
    .inputs = melt_inputs,
    .outputs = melt_outputs,
    .exactly_one_of = {},
    .answer = answer_melt_test};

constinit const Calculation melt_curve_calculation = {
    .name = "melt-curve",
    .purpose = "curve of the share of wires that melt",
    .equation = "link(share) = intercept + slope display, maximum likelihood by Fisher's scoring.",
    .source = "Dobson 2002; Albert, Anderson 1984",
    .inputs = curve_inputs,
    .outputs = curve_outputs,
    .exactly_one_of = {},
    .answer = answer_melt_curve};

}  // namespace heatwork::desk
