// Cooling: a furnace cools only by losing heat, so no rate beyond that can be asked of it.
#include <cmath>

#include "firing/chamber.h"
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

/// The cooling stage that asks most of the chamber, over what it does by itself at the stage's end.
struct Hardest {
  double times = 0, asked = 0, possible = 0, to_C = 0, opening_percent = 0;  ///< rates in [K/min]
  int stage = 0;
};

Hardest hardest_of(const trade::Program& program, const trade::Furnace& furnace, double room_C) {
  const double error_K = furnace.display_error ? furnace.display_error->error.value.si() : 0;
  Hardest hardest;
  int number = 0;
  for (const trade::CoolingStage& stage : program.cooling) {
    ++number;
    if (!stage.rate) continue;
    const double to_C = stage.to.value.celsius();
    const double opening = stage.opening.value.si();
    const double possible = 60 * firing::natural_cooling_per_s(furnace.natural_cooling, opening) * (to_C - error_K - room_C);
    const double asked = 60 * stage.rate->value.si();
    if (!(possible > 0) || !(asked / possible > hardest.times)) continue;
    hardest = {asked / possible, asked, possible, to_C, 100 * opening, number};
  }
  return hardest;
}

}  // namespace

void judge_cooling(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const double room_C = request.firing.chamber.room.value.celsius();
  const Hardest here = hardest_of(request.program, request.furnace, room_C);
  if (here.stage == 0) return;
  Number number{here.times};
  std::string maker_says;
  if (request.instruction_program) {
    const Hardest maker = hardest_of(*request.instruction_program, request.furnace, room_C);
    if (maker.stage > 0) {
      number.maker = maker.times;
      maker_says = shown(bench, KeyedKind::rate, maker.asked);
    }
  }
  Finding finding = judged(
      bench, Aspect::cooling, "", number, "cooling_rate", Side::above,
      bench.sentence("findings.cooling.too_fast", {{"stage", bench.number(here.stage)},
                                                   {"asked", shown(bench, KeyedKind::rate, here.asked)},
                                                   {"furnace", request.furnace.name},
                                                   {"opening", bench.number(here.opening_percent)},
                                                   {"to", shown(bench, KeyedKind::temperature, here.to_C)},
                                                   {"possible", bench.rounded(bench.in_steps(here.possible)) + bench.unit_of_rates()}}),
      maker_says);
  if (finding.level == Level::sound && !(number.maker && here.times > bench.limits.at("cooling_rate").first)) return;
  if (finding.level != Level::sound) {
    finding.change =
        bench.say("findings.cooling.slower",
                  {{"stage", bench.number(here.stage)},
                   {"possible", bench.number(std::max(1.0, std::floor(bench.in_steps(here.possible)))) + bench.unit_of_rates()}});
  }
  finding.number = here.asked;
  finding.unit = "K/min";
  if (finding.limit) *finding.limit *= here.possible;
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
