// Vacuum: whether its level is reached, and whether it is there while the pores seal.
#include <algorithm>
#include <cmath>
#include <optional>

#include "firing/column.h"
#include "verdict/bench.h"
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

std::string millibars(const Bench& bench, double pressure_Pa) {
  return bench.number(pressure_Pa / 100);
}

/// The level asked; the instruction's own comes first.
struct Asked {
  double pressure_Pa = 0;
  bool by_maker = false;
};

Asked asked_of(const Bench& bench) {
  const auto& instruction = bench.rehearsal.request.instruction;
  if (instruction && instruction->limits.vacuum_level_at_most) return {instruction->limits.vacuum_level_at_most->value.si(), true};
  return {bench.rehearsal.request.program.vacuum->level.value.si(), false};
}

/// A pressure judged as a multiple of the level asked (`maker_Pa` empty: there is none), the maker's of `maker_asked_Pa`; number and limit
/// are shown in the unit of the gauge.
Finding against_level(const Bench& bench, const std::string& name, const PieceCase& piece, const Value& pressure_Pa, const Value& maker_Pa,
                      double maker_asked_Pa, const std::string& sentence) {
  const Asked asked = asked_of(bench);
  const auto multiple = [](const Value& of, double asked_Pa) {
    return of ? Value([of, asked_Pa](const PieceCase& one) { return of(one) / asked_Pa; }) : Value{};
  };
  const Number number =
      bench.banded(Aspect::vacuum, piece, multiple(pressure_Pa, asked.pressure_Pa), multiple(maker_Pa, maker_asked_Pa), 0);
  Finding finding = judged(bench, Aspect::vacuum, name, number, "vacuum_level", Side::above, sentence,
                           number.maker ? millibars(bench, *number.maker * maker_asked_Pa) + " mbar" : "");
  const bool is_level_asked = *finding.limit == 1;
  for (std::optional<double>* shown : {&finding.number, &finding.low, &finding.high, &finding.limit})
    if (*shown) *shown = **shown * asked.pressure_Pa / 100;
  finding.unit = "mbar";
  if (asked.by_maker && is_level_asked) finding.limit_from = LimitFrom::instruction;
  return finding;
}

void level_reached(Bench& bench, const PieceCase& any, const trade::Vacuum& vacuum, const firing::ChamberMoment& started) {
  const firing::ChamberHistory& chamber = bench.rehearsal.firing.chamber;
  const firing::ChamberMoment* reached = chamber.find(firing::ChamberEvent::vacuum_reached);
  const std::string sentence =
      reached != nullptr && !chamber.level_never_reached
          ? bench.sentence("findings.vacuum.level_reached", {{"level", millibars(bench, vacuum.level.value.si())},
                                                             {"after", bench.time(reached->time_s - started.time_s)},
                                                             {"display", bench.degrees(chamber.display_at(reached->time_s))}})
          : bench.sentence("findings.vacuum.level_missed", {{"lowest", millibars(bench, chamber.lowest_pressure_Pa)},
                                                            {"level", millibars(bench, asked_of(bench).pressure_Pa)},
                                                            {"furnace", bench.rehearsal.request.furnace.name}});
  // The maker's firing is held against what the maker's program asks: a level keyed in beyond reach is no fault of the maker's.
  const Asked asked = asked_of(bench);
  const auto& maker = bench.rehearsal.request.instruction_program;
  const double maker_asked_Pa = maker && maker->vacuum && !asked.by_maker ? maker->vacuum->level.value.si() : asked.pressure_Pa;
  Finding finding = against_level(
      bench, "", any, [](const PieceCase& one) { return one.firing->chamber.lowest_pressure_Pa; },
      [](const PieceCase& one) { return one.maker_firing->chamber.lowest_pressure_Pa; }, maker_asked_Pa, sentence);
  if (finding.level != Level::sound) finding.change = bench.say("findings.vacuum.mend_pump");
  const trade::Pump& pump = bench.rehearsal.request.furnace.pump;
  // Leaking in and pumping out balance here, however long the pump runs.
  const double ends_Pa = pump.ultimate.value.si() + pump.leak.value.si() * pump.time_constant.value.si();
  if (finding.level != Level::sound && vacuum.level.value.si() < ends_Pa) {
    finding.sentence += ' ' + bench.sentence("findings.vacuum.out_of_reach",
                                             {{"ends", millibars(bench, ends_Pa)}, {"ambient", millibars(bench, chamber.ambient_Pa)}});
    // To ask for less than the maker's program has is no cure.
    if (!maker || !maker->vacuum || ends_Pa <= maker->vacuum->level.value.si())
      finding.change = bench.say("findings.vacuum.ask_less", {{"to", bench.number(5 * std::ceil(ends_Pa / 500 + 0.2))}});
  }
  bench.add(std::move(finding));
}

/// What can be wrong with the vacuum for one piece, each as share or growth at its worst point.
struct Trouble {
  double sealed_before_percent = 0;
  double open_at_release_percent = 0;
  bool never_released = false;
  double swelling = 1;
};

Trouble trouble_of(const firing::PieceResult& piece, const firing::FiringResult& firing) {
  Trouble trouble;
  const firing::ChamberMoment* started = firing.chamber.find(firing::ChamberEvent::vacuum_started);
  const firing::ChamberMoment* released = firing.chamber.find(firing::ChamberEvent::released);
  const firing::ChamberMoment* ends = firing.chamber.find(firing::ChamberEvent::hold_ends);
  trouble.never_released = started != nullptr && (released == nullptr || (ends != nullptr && released->time_s > ends->time_s + 1));
  for (const firing::PointResult& point : piece.points) {
    if (!point.decides || !point.viscous) continue;
    if (started != nullptr)
      trouble.sealed_before_percent = std::max(trouble.sealed_before_percent, 100 * point.sealed_share_at_vacuum_start);
    trouble.swelling = std::max(trouble.swelling, point.swelling);
    if (started == nullptr || released == nullptr || trouble.never_released) continue;
    trouble.open_at_release_percent = std::max(trouble.open_at_release_percent, 100 * (1 - point.sealed_share_at_release));
  }
  return trouble;
}

/// One trouble as a finding; the gravest is kept.
struct Choice {
  std::string_view limit, words, change, unit;
  double Trouble::*what;
};

Number trouble_number(const Bench& bench, const PieceCase& piece, const Choice& choice) {
  return bench.banded(
      Aspect::vacuum, piece, [&](const PieceCase& one) { return trouble_of(*one.here, *one.firing).*choice.what; },
      [&](const PieceCase& one) { return trouble_of(*one.maker, *one.maker_firing).*choice.what; }, 0);
}

Finding trouble_finding(const Bench& bench, const PieceCase& piece, const Choice& choice) {
  const auto with_unit = [&](double value) { return bench.rounded(value) + std::string(choice.unit); };
  const Number number = trouble_number(bench, piece, choice);
  Finding finding = judged(bench, Aspect::vacuum, piece.here->piece, number, choice.limit, Side::above,
                           bench.sentence(choice.words, {{"piece", piece.here->piece}, {"value", bench.rounded(number.nominal)}}),
                           number.maker ? with_unit(*number.maker) : "");
  if (finding.level != Level::sound) finding.change = bench.say(choice.change);
  return finding;
}

/// The point whose pores half seal under the highest pressure; nullptr where none do.
const firing::PointResult* highest_sealing(const firing::PieceResult& piece) {
  const firing::PointResult* highest = nullptr;
  for (const firing::PointResult& point : piece.points) {
    if (!point.decides || !point.viscous || point.half_sealed_s < 0) continue;
    if (highest == nullptr || point.pressure_at_sealing_Pa > highest->pressure_at_sealing_Pa) highest = &point;
  }
  return highest;
}

/// The pressure the pores half seal under.
Finding at_sealing(const Bench& bench, const PieceCase& piece) {
  const firing::PointResult* here = highest_sealing(*piece.here);
  const std::string& name = piece.here->piece;
  if (here == nullptr) {
    Finding finding;
    finding.aspect = Aspect::vacuum;
    finding.level = Level::sound;
    finding.piece = name;
    finding.sentence = bench.sentence("findings.vacuum.nothing_sealed", {{"piece", name}});
    return finding;
  }
  const firing::ChamberHistory& chamber = bench.rehearsal.firing.chamber;
  const bool maker_seals = piece.maker != nullptr && highest_sealing(*piece.maker) != nullptr;
  const auto pressure_at = [](const firing::PieceResult& one) {
    const firing::PointResult* sealing = highest_sealing(one);
    return sealing == nullptr ? std::nan("") : sealing->pressure_at_sealing_Pa;
  };
  const std::string sentence =
      bench.sentence("findings.vacuum.at_sealing", {{"piece", name},
                                                    {"display", bench.degrees(chamber.display_at(here->half_sealed_s))},
                                                    {"pressure", millibars(bench, here->pressure_at_sealing_Pa)}});
  Finding finding = against_level(
      bench, name, piece, [&](const PieceCase& one) { return pressure_at(*one.here); },
      maker_seals ? Value([&](const PieceCase& one) { return pressure_at(*one.maker); }) : Value{}, asked_of(bench).pressure_Pa, sentence);
  if (finding.level == Level::sound) return finding;
  const firing::ChamberMoment* reached = chamber.find(firing::ChamberEvent::vacuum_reached);
  const bool still_pumping = reached != nullptr && reached->time_s > here->half_sealed_s;
  finding.change = bench.say(still_pumping ? "findings.vacuum.start_earlier" : "findings.vacuum.mend_pump");
  return finding;
}

bool sinters(const firing::PieceResult& piece) {
  return std::any_of(piece.points.begin(), piece.points.end(),
                     [](const firing::PointResult& point) { return point.decides && point.viscous; });
}

}  // namespace

void judge_vacuum_level(Bench& bench, const std::vector<PieceCase>& cases) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const firing::ChamberMoment* started = bench.rehearsal.firing.chamber.find(firing::ChamberEvent::vacuum_started);
  if (request.program.vacuum && started != nullptr) {
    level_reached(bench, cases.front(), *request.program.vacuum, *started);
    return;
  }
  const bool maker_pumps = request.instruction_program && request.instruction_program->vacuum;
  if (!maker_pumps && !request.program.vacuum) return;
  Finding finding;
  finding.aspect = Aspect::vacuum;
  finding.level = maker_pumps ? Level::fault_expected : Level::borderline;
  finding.sentence = bench.sentence(maker_pumps ? "findings.vacuum.none_but_maker" : "findings.vacuum.never_starts",
                                    {{"program", request.program.name}, {"maker", maker_pumps ? request.instruction_program->name : ""}});
  finding.change = bench.say("findings.vacuum.start_it");
  if (maker_pumps) finding.limit_from = LimitFrom::instruction;
  bench.add(std::move(finding));
}

void judge_vacuum(Bench& bench, const PieceCase& piece) {
  if (!sinters(*piece.here) || bench.rehearsal.firing.chamber.find(firing::ChamberEvent::vacuum_started) == nullptr) return;
  const Trouble here = trouble_of(*piece.here, bench.rehearsal.firing);
  std::optional<Trouble> maker;
  if (piece.maker != nullptr) maker = trouble_of(*piece.maker, *piece.maker_firing);
  const Choice choices[] = {
      {"sealed_before_vacuum", "findings.vacuum.sealed_before", "findings.vacuum.start_earlier", " %", &Trouble::sealed_before_percent},
      {"open_at_release", "findings.vacuum.open_at_release", "findings.vacuum.release_later", " %", &Trouble::open_at_release_percent},
      {"swelling", here.never_released ? "findings.vacuum.swollen_never_released" : "findings.vacuum.swollen",
       here.never_released ? "findings.vacuum.release" : "findings.vacuum.start_earlier", "", &Trouble::swelling}};
  std::optional<Finding> gravest;
  bool shown = false;
  for (const Choice& choice : choices) {
    Finding finding = trouble_finding(bench, piece, choice);
    // A limit that the maker's firing breaks too is shown, though it raises no level.
    const bool breaks_too = assess(trouble_number(bench, piece, choice), bench.limits.at(choice.limit), Side::above).maker_breaks_too;
    if (!gravest || finding.level < gravest->level || (finding.level == gravest->level && breaks_too && !shown))
      gravest = std::move(finding);
    shown = shown || breaks_too;
  }
  Finding sealing = at_sealing(bench, piece);
  if (sealing.level < gravest->level || (gravest->level == Level::sound && !shown)) gravest = std::move(sealing);
  if (here.never_released && gravest->level == Level::sound && !(maker && maker->never_released)) {
    gravest->level = Level::borderline;
    gravest->sentence = bench.sentence("findings.vacuum.never_released", {{"piece", piece.here->piece}});
    gravest->change = bench.say("findings.vacuum.release");
    gravest->number.reset();
    gravest->unit.clear();
    gravest->limit.reset();
    gravest->limit_from = LimitFrom::none;
  }
  bench.add(std::move(*gravest));
}

void judge_glaze_vacuum(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const trade::StageOfWork stage = request.firing.stage.value;
  if (stage != trade::StageOfWork::glaze && stage != trade::StageOfWork::stain) return;
  const auto kept_s = [](const trade::Program& program) {
    const trade::HeatingStage* hottest = hottest_stage(program);
    if (!program.vacuum || hottest == nullptr) return 0.0;
    if (!program.vacuum->to) return hottest->hold.value.si();
    const bool to_top = program.vacuum->to->value.celsius() >= top_C(program) - 1e-6;
    return to_top ? program.vacuum->hold_under_vacuum.value.si() : 0.0;
  };
  const double here_s = kept_s(request.program);
  const double maker_s = request.instruction_program ? kept_s(*request.instruction_program) : 0;
  if (!(here_s > maker_s)) return;
  Finding finding =
      broken_rule(bench, Aspect::vacuum, "glaze_under_vacuum",
                  bench.sentence("findings.vacuum.through_glaze",
                                 {{"time", bench.time(here_s)}, {"top", shown(bench, KeyedKind::temperature, top_C(request.program))}}),
                  bench.say("findings.vacuum.glaze_in_air"));
  finding.number = here_s;
  finding.unit = "s";
  finding.limit = maker_s;
  if (request.instruction_program) finding.limit_from = LimitFrom::instruction;
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
