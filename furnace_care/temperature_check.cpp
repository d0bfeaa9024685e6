#include "furnace_care/temperature_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "furnace_care/wire_questions.h"
#include "metrology/atmosphere.h"
#include "metrology/display_limits.h"
#include "metrology/melt_wire.h"
#include "metrology/melting_threshold.h"
#include "trade/choice_words.h"

namespace heatwork::furnace_care {
namespace {

using trade::Standing;

// Standing of all: assumed. source: chosen-here
constexpr double stated_uncertainty_K = 1.0;  ///< of a melting temperature stated without one
constexpr double kinetics_K = 0.5;            ///< purity and kinetics of a good wire
constexpr double edges_share = 0.1;           ///< molten where a cut end has rounded
constexpr double most_superheat_K = 20.0;
constexpr double much_superheat_K = 3.0;
constexpr double good_hold_s = 120.0;
constexpr double good_rate_K_per_min = 30.0;

std::string metal_word(const trade::WireTest& wire) {
  return std::string(trade::choice_word(wire.metal->value));
}

double superheat_K(const trade::WireTest& wire, double melting_C) {
  const double share = wire.criterion && wire.criterion->value == trade::MeltCriterion::balled ? 1.0 : edges_share;
  const double K = metrology::wire_superheat_K(1e3 * wire.diameter->value.si(), share, wire.hold->value.si(), melting_C);
  if (K > most_superheat_K)
    throw std::domain_error(fmt::format(
        "Such a wire needs {:.0f} K above its melting point to melt within this hold, which tells nothing of the display; take a wire "
        "of 0.3 mm or less and hold 2 min or more.",
        K));
  return K;
}

WirePoint stated_point(const trade::WireTest& wire) {
  WirePoint point;
  point.temperature_C = wire.melting->value.celsius();
  point.uncertainty_K = wire.melting_u ? wire.melting_u->value.si() : stated_uncertainty_K;
  point.sentence = fmt::format("The procedure states that this wire melts at {:.2f} °C.", point.temperature_C);
  point.standing = Standing::assumed;
  point.source = wire.stated_in.empty() ? "stated in the procedure" : wire.stated_in;
  return point;
}

metrology::WireGas gas_felt(const trade::WireTest& wire) {
  if (wire.metal->value == trade::TestWire::gold || !wire.gas) return metrology::WireGas::inert;
  const bool vented = wire.vented_hot && wire.vented_hot->value;
  switch (wire.gas->value) {
    case trade::TestGas::air:
      return metrology::WireGas::air;
    case trade::TestGas::vacuum:
      return vented ? metrology::WireGas::air : metrology::WireGas::vacuum;
    case trade::TestGas::inert:
      return vented ? metrology::WireGas::air : metrology::WireGas::inert;
    case trade::TestGas::unknown:
      break;
  }
  return metrology::WireGas::unknown;
}

std::string point_sentence(const trade::WireTest& wire, metrology::WireGas gas, double pressure_mbar, double melting_C) {
  if (wire.metal->value == trade::TestWire::gold) return fmt::format("Gold of this purity melts at {:.2f} °C in any gas.", melting_C);
  switch (gas) {
    case metrology::WireGas::air:
      if (wire.gas->value != trade::TestGas::air)
        return fmt::format("Air came in while the wire was hot, so it melts as in air of {:.0f} mbar, at {:.2f} °C.", pressure_mbar,
                           melting_C);
      return fmt::format("Silver of this purity melts at {:.2f} °C in air of {:.0f} mbar, not at 961.78 °C.", melting_C, pressure_mbar);
    case metrology::WireGas::vacuum:
      return fmt::format("Silver of this purity melts at {:.2f} °C in a vacuum of {:.0f} mbar.", melting_C, pressure_mbar);
    case metrology::WireGas::inert:
      return fmt::format("Silver of this purity melts at {:.2f} °C without oxygen.", melting_C);
    case metrology::WireGas::unknown:
      break;
  }
  return fmt::format("The gas is not known, so silver melts anywhere from its point in air to that without oxygen: {:.2f} °C is taken.",
                     melting_C);
}

WirePoint computed_point(const trade::WireTest& wire, const trade::Furnace& furnace) {
  const bool is_gold = wire.metal->value == trade::TestWire::gold;
  const metrology::WireGas gas = gas_felt(wire);
  const double air_mbar = metrology::standard_atmosphere_Pa(furnace.altitude.value.si()) / 100;
  const double pressure_mbar = gas == metrology::WireGas::vacuum ? wire.pressure->value.si() / 100 : air_mbar;
  const auto melting = metrology::wire_melt_point(is_gold ? metrology::WireMetal::gold : metrology::WireMetal::silver, gas, pressure_mbar,
                                                  100 * wire.purity->value.si());
  WirePoint point;
  point.uncertainty_K = melting.uncertainty_K;
  point.superheat_K = superheat_K(wire, melting.temperature_C);
  point.temperature_C = melting.temperature_C + point.superheat_K;
  point.sentence = point_sentence(wire, gas, pressure_mbar, melting.temperature_C);
  point.standing = is_gold || gas == metrology::WireGas::inert ? Standing::measured : Standing::computed;
  point.source = is_gold || gas == metrology::WireGas::inert ? "its-90" : "computed-here";
  return point;
}

/// A display so far from the melting point that no error explains it.
void check_trials(const WireAsked& asked, double melting_C) {
  for (const trade::WireTrial& trial : asked.trials) {
    const double display_C = trial.display.value.celsius();
    if (trial.melted && display_C < melting_C - metrology::beyond_any_error_K)
      throw std::domain_error(
          fmt::format("A {} wire does not melt at a display of {:.0f} °C, {:.0f} K under its melting point: it is another "
                      "metal or an alloy, or the display was misread.",
                      metal_word(asked.wire), display_C, melting_C - display_C));
    if (!trial.melted && display_C > melting_C + metrology::beyond_any_error_K)
      throw std::domain_error(
          fmt::format("A {} wire does not stay whole at a display of {:.0f} °C, {:.0f} K over its melting point: it is "
                      "another metal, or the display was misread.",
                      metal_word(asked.wire), display_C, display_C - melting_C));
  }
}

void check_reach(const WireAsked& asked, double display_C) {
  const double maximum_C = asked.furnace.maximum.value.celsius();
  if (display_C > maximum_C)
    throw std::domain_error(
        fmt::format("The next wire would be fired at a display of {:.0f} °C, but furnace {} may go to {:.0f} °C only; take "
                    "a silver wire.",
                    display_C, asked.furnace.name, maximum_C));
}

Budget budget_of(const WirePoint& point, const trade::Furnace& furnace) {
  Budget budget;
  budget.push_back({"melting point of the wire", point.uncertainty_K, point.standing, point.source, true});
  budget.push_back(
      {"purity and melting kinetics", std::hypot(kinetics_K, 0.5 * point.superheat_K), Standing::assumed, "chosen-here", true});
  add_parts_of_display(budget, furnace.ability.temperature_step.value.si());
  return budget;
}

std::vector<std::string> remarks_on(const WireAsked& asked, const std::optional<WirePoint>& point) {
  std::vector<std::string> remarks;
  const trade::WireTest& wire = asked.wire;
  if (point && point->superheat_K > much_superheat_K)
    remarks.push_back(
        fmt::format("This wire needs {:.1f} K above its melting point to melt within the hold; that is allowed for, a thinner wire or a "
                    "longer hold is surer.",
                    point->superheat_K));
  if (wire.hold && wire.hold->value.si() < good_hold_s)
    remarks.emplace_back("Hold the display value 2 min or more: a short hold scatters more.");
  if (wire.rate && 60 * wire.rate->value.si() > good_rate_K_per_min)
    remarks.emplace_back("Heat the last 20 K at 30 K/min or slower, so that wire and display are together.");
  if (wire.gas && wire.gas->value == trade::TestGas::unknown)
    remarks.emplace_back("Find out which gas is around the wire: not knowing it is the largest part of what stays unsure.");
  return remarks;
}

std::string contradiction(const WireAsked& asked) {
  for (const trade::WireTrial& low : asked.trials)
    for (const trade::WireTrial& high : asked.trials)
      if (low.melted && !high.melted && high.display.value >= low.display.value)
        return fmt::format(
            "A wire stayed whole at a display of {:.0f} °C though one melted at {:.0f} °C: look at both again, one reading may be "
            "wrong.",
            high.display.value.celsius(), low.display.value.celsius());
  return {};
}

WireFound found_by(const metrology::MeltEstimate& estimate, double u_K) {
  const double e_K = estimate.offset_K;
  return {estimate.threshold_C, estimate.low_C,       estimate.high_C,       e_K, u_K,
          e_K - coverage * u_K, e_K + coverage * u_K, estimate.contradictory};
}

/// Level, advice and their sentence, once no further wire is asked for.
void judge(WireTold& told, const WireAsked& asked) {
  std::vector<ErrorFound> all = asked.others;
  all.push_back(*error_of(told, asked.means));
  told.line = line_of(std::move(all));
  const double melting_C = told.point->temperature_C;
  const ErrorAt here = told.line->at(melting_C);
  told.judged = {melting_C, here.error_K, here.standard_uncertainty_K};
  told.verdict = judge_display({*told.judged}, told.limit_K, trade::CheckOf::temperature);
  if (asked.others.empty()) return;
  for (auto& remark : remarks_on_others(told.found->error_K, told.found->standard_uncertainty_K, told.line->agreement))
    told.remarks.push_back(std::move(remark));
}

}  // namespace

std::optional<ErrorFound> error_of(const WireTold& told, int means) {
  if (!told.found) return std::nullopt;
  return found_with(told.point->temperature_C, told.found->error_K, told.budget, means);
}

Budget wire_budget(const trade::WireTest& wire, const trade::Furnace& furnace) {
  return budget_of(wire_point(wire, furnace), furnace);
}

WirePoint wire_point(const trade::WireTest& wire, const trade::Furnace& furnace) {
  return wire.melting ? stated_point(wire) : computed_point(wire, furnace);
}

WireTold tell_wire_test(const WireAsked& asked) {
  WireTold told;
  told.limit_K = asked.limit_K.value_or(metrology::usual_display_limit_K);
  told.limit_of_lab = asked.limit_K.has_value();
  told.before = error_before(asked.furnace, asked.earlier, asked.keyed_now_K);
  told.question = next_wire_question(asked.wire);
  if (told.question) {
    // What is no test at all is told at once, not after the last question.
    if (asked.wire.metal && asked.wire.purity && !asked.wire.melting)
      (void)metrology::wire_melt_point(metrology::WireMetal::gold, metrology::WireGas::inert, 1000, 100 * asked.wire.purity->value.si());
    if (!asked.trials.empty())
      throw std::domain_error(fmt::format("A wire was fired before it is known how: first answer {}.", told.question->key));
    told.remarks = remarks_on(asked, std::nullopt);
    return told;
  }
  told.point = wire_point(asked.wire, asked.furnace);
  told.remarks = remarks_on(asked, told.point);
  const double melting_C = told.point->temperature_C;
  check_trials(asked, melting_C);
  std::vector<metrology::MeltTrial> trials;
  for (const trade::WireTrial& trial : asked.trials) trials.push_back({trial.display.value.celsius(), trial.melted});
  const auto estimate =
      metrology::estimate_melt_threshold({melting_C, melting_C + told.before.error_K, told.before.sd_K, std::nullopt, 0.02}, trials);
  told.budget = budget_of(*told.point, asked.furnace);
  told.budget.push_back({"threshold from these wires", estimate.sd_K, Standing::computed, "kontsevich-tyler-1999"});
  if (!trials.empty()) {
    told.found = found_by(estimate, combined_K(told.budget));
    if (estimate.contradictory) told.remarks.push_back(contradiction(asked));
  }
  if (estimate.next_display_C) {
    check_reach(asked, *estimate.next_display_C);
    told.next_display_C = estimate.next_display_C;
    told.next_sentence = estimate.advice == metrology::MeltAdvice::repeat
                             ? fmt::format("Fire a fresh wire at {:.0f} °C once more: the readings scatter more than a good test does.",
                                           *estimate.next_display_C)
                             : fmt::format("Fire a fresh wire at a display of {:.0f} °C.", *estimate.next_display_C);
    told.verdict.sentence = "The check still goes on.";
    return told;
  }
  if (estimate.poor_spread_share > 0.5)
    told.remarks.emplace_back(
        "These wires scattered more than a good test does: fresh wire of one reel, the same place and the same hold make it surer.");
  judge(told, asked);
  return told;
}

}  // namespace heatwork::furnace_care
