// What the furnace can do with the program: its maximum, its power, and a hold that starts late.
#include <algorithm>
#include <cmath>
#include <optional>

#include "firing/chamber.h"
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {

void judge_maximum(Bench& bench) {
  const trade::Furnace& furnace = bench.rehearsal.request.furnace;
  const double top = top_C(bench.rehearsal.request.program), maximum_C = furnace.maximum.value.celsius();
  if (top <= maximum_C + 1e-6) return;
  const std::string allowed = shown(bench, KeyedKind::temperature, maximum_C);
  Finding finding = broken_rule(bench, Aspect::furnace, "above_maximum",
                                bench.sentence("findings.furnace.above_maximum", {{"program", bench.rehearsal.request.program.name},
                                                                                  {"top", shown(bench, KeyedKind::temperature, top)},
                                                                                  {"furnace", furnace.name},
                                                                                  {"maximum", allowed}}),
                                bench.say("findings.furnace.within_maximum", {{"maximum", allowed}}));
  finding.number = top;
  finding.unit = "°C";
  finding.limit = maximum_C;
  bench.add(std::move(finding));
}

namespace {

/// The first heating stage that asks for more than full power gives at its end.
void beyond_power(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  constexpr double any_air_Pa = 101325;  // heating does not hang on it
  const firing::ChamberConditions today = firing::conditions_today(request.furnace, request.firing.chamber, any_air_Pa);
  int number = 0;
  for (const trade::HeatingStage& stage : request.program.heating) {
    ++number;
    const double to_C = stage.to.value.celsius(), asked = 60 * stage.rate.value.si();
    const double possible = 60 * firing::full_power_K_per_s(today, to_C - today.display_error_K);
    if (asked <= possible) continue;
    const double ends_C = today.room_C + today.gain_K_per_s / today.loss_per_s + today.display_error_K;
    const std::string change =
        possible >= 1 ? bench.say("findings.furnace.rate_within_power",
                                  {{"possible", bench.number(std::floor(bench.in_steps(possible))) + bench.unit_of_rates()}})
                      : bench.say("findings.furnace.top_within_power",
                                  {{"top", bench.number(std::floor(bench.in_degrees(ends_C) / 10) * 10) + bench.unit_of_degrees()}});
    Finding finding = broken_rule(bench, Aspect::furnace, "beyond_power",
                                  bench.sentence("findings.furnace.beyond_power", {{"stage", bench.number(number)},
                                                                                   {"asked", shown(bench, KeyedKind::rate, asked)},
                                                                                   {"to", shown(bench, KeyedKind::temperature, to_C)},
                                                                                   {"furnace", request.furnace.name},
                                                                                   {"ends", bench.degrees(ends_C)}}),
                                  change);
    finding.number = asked;
    finding.unit = "K/min";
    finding.limit = std::max(0.0, possible);
    bench.add(std::move(finding));
    return;
  }
}

}  // namespace

void judge_impossible(Bench& bench) {
  if (!bench.rehearsal.impossible) return;
  Finding finding = broken_rule(bench, Aspect::furnace, "cannot_be_run",
                                bench.sentence("findings.furnace.cannot_be_run", {{"why", *bench.rehearsal.impossible}}),
                                bench.say("findings.furnace.another_program"));
  bench.add(std::move(finding));
  beyond_power(bench);
}

namespace {

double hold_at_top_s(const trade::Program& program) {
  const trade::HeatingStage* hottest = hottest_stage(program);
  return hottest == nullptr ? 0 : hottest->hold.value.si();
}

/// How much later than the asked line the display reaches the top; absent where there is no hold there. [s]
std::optional<double> late_s(const firing::ChamberHistory& chamber, const trade::Program& program) {
  const firing::ChamberMoment* ends = chamber.find(firing::ChamberEvent::hold_ends);
  if (!(hold_at_top_s(program) > 0) || ends == nullptr) return {};
  // The program's own top: after the hold the asked line starts from the display, which may have overshot it.
  const double top = top_C(program);
  const auto asked = std::find_if(chamber.asked_C.begin(), chamber.asked_C.end(), [&](double C) { return C >= top - 1e-6; });
  if (asked == chamber.asked_C.end()) return {};
  const double asked_s = chamber.time_s[static_cast<std::size_t>(asked - chamber.asked_C.begin())];
  const firing::ChamberMoment* reached = chamber.find(firing::ChamberEvent::top);
  return std::max(0.0, (reached != nullptr ? reached->time_s : ends->time_s) - asked_s);
}

}  // namespace

void judge_hold_start(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const bool by_asked = request.furnace.ability.hold_starts.value == trade::HoldStart::asked_reaches;
  const double hold_s = hold_at_top_s(request.program);
  const std::optional<double> late = late_s(bench.rehearsal.firing.chamber, request.program);
  if (!late) return;
  Number number{*late};
  std::string maker_says;
  if (request.instruction_program && !bench.rehearsal.reference.empty()) {
    number.maker = late_s(bench.rehearsal.reference.front().chamber, *request.instruction_program);
    if (number.maker) maker_says = bench.time(*number.maker);
  }
  const double left_s = std::max(0.0, hold_s - *late);
  const std::string top = shown(bench, KeyedKind::temperature, top_C(request.program));
  const std::string sentence =
      by_asked ? bench.sentence("findings.furnace.hold_shortened",
                                {{"top", top}, {"late", bench.time(*late)}, {"hold", bench.time(hold_s)}, {"left", bench.time(left_s)}})
               : bench.sentence("findings.furnace.hold_late", {{"top", top}, {"late", bench.time(*late)}});
  Finding finding = judged(bench, Aspect::furnace, "", number, "hold_late", Side::above, sentence, maker_says);
  if (finding.level == Level::sound) return;
  // A hold that waits for the display is late but whole.
  if (!by_asked) finding.level = Level::borderline;
  const double step_s = std::max(1.0, request.furnace.ability.time_step.value.si());
  finding.change = by_asked ? bench.say("findings.furnace.longer_hold",
                                        {{"to", bench.time(step_s * std::ceil((hold_s + *late) / step_s))}, {"hold", bench.time(hold_s)}})
                            : way_to_power(bench);
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
