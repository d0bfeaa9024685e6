#include "desk/calculations/registry.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "desk/calculations/models.h"
#include "desk/errors.h"
#include "quantity/read.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

constexpr std::array<const Calculation*, 31> all = {&viscosity_calculation,
                                                    &cylinder_sintering_calculation,
                                                    &pore_closure_calculation,
                                                    &pore_equilibrium_calculation,
                                                    &levelling_calculation,
                                                    &equal_heat_work_calculation,
                                                    &sintering_calculation,
                                                    &crystallisation_calculation,
                                                    &zirconia_sintering_calculation,
                                                    &equivalent_firing_calculation,
                                                    &trial_firing_calculation,
                                                    &section_heating_calculation,
                                                    &fictive_temperature_calculation,
                                                    &layered_elastic_calculation,
                                                    &thermal_shock_calculation,
                                                    &cooling_stress_calculation,
                                                    &standard_atmosphere_calculation,
                                                    &gauge_pressure_calculation,
                                                    &water_saturation_calculation,
                                                    &thermocouple_calculation,
                                                    &thermocouple_tolerance_calculation,
                                                    &silver_melting_calculation,
                                                    &melt_test_calculation,
                                                    &melt_curve_calculation,
                                                    &straight_line_calculation,
                                                    &pump_down_calculation,
                                                    &rate_of_rise_calculation,
                                                    &heat_up_calculation,
                                                    &control_chart_calculation,
                                                    &run_length_calculation,
                                                    &colour_difference_calculation};

bool is_finite(const Json& value) {
  if (const double* number = value.number()) return std::isfinite(*number);
  if (const JsonList* items = value.list()) return std::all_of(items->begin(), items->end(), is_finite);
  return true;
}

/// A model far outside all that is physical may overflow; that is no answer.
Json finite(const Calculation& calculation, Json answer) {
  for (const JsonMember& member : *answer.object()) {
    if (!is_finite(member.value)) {
      throw Failure(ErrorWord::no_answer,
                    fmt::format("{} has no answer here: \"{}\" would be no finite number.", calculation.name, member.key));
    }
  }
  return answer;
}

}  // namespace

std::span<const Calculation* const> calculations() {
  return all;
}

const Calculation& find_calculation(std::string_view name) {
  std::vector<std::string> names;
  for (const Calculation* each : all) {
    if (each->name == name) return *each;
    names.emplace_back(each->name);
  }
  const std::string meant = quantity::near_miss(name, names);
  throw Failure(ErrorWord::unknown_name,
                fmt::format("There is no calculation \"{}\"{}; \"heatwork calculate --list\" shows all of them.",
                            trade::for_message(name, 40), meant.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", meant)));
}

Json calculate(const Calculation& calculation, const Json& object) {
  const Inputs inputs(calculation.name, object, calculation.inputs);
  check_choice(calculation, inputs);
  try {
    return finite(calculation, calculation.answer(inputs));
  } catch (const std::domain_error& refused) {  // the keys are in range one by one, the model refuses them together
    throw Failure(ErrorWord::no_answer, fmt::format("{} has no answer here: {}", calculation.name, refused.what()));
  } catch (const std::invalid_argument& refused) {
    throw Failure(ErrorWord::no_answer, fmt::format("{} has no answer here: {}", calculation.name, refused.what()));
  }
}

Json calculate_all(const Calculation& calculation, const Json& asked, const std::function<void(std::size_t, std::size_t)>& done) {
  const JsonList* items = asked.list();
  if (!items) return calculate(calculation, asked);
  JsonList answers;
  answers.reserve(items->size());
  for (std::size_t i = 0; i < items->size(); ++i) {
    try {
      answers.push_back(calculate(calculation, (*items)[i]));
    } catch (const Failure& refused) {
      throw Failure(refused.error(), fmt::format("Item {} of {} (index {}): {}", i + 1, items->size(), i, refused.what()));
    }
    if (done) done(i + 1, items->size());
  }
  return answers;
}

}  // namespace heatwork::desk
