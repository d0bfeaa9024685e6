// The headline: like so many kelvin, like so many seconds of hold, against the maker's own firing.
#include <algorithm>
#include <cmath>

#include "firing/band.h"
#include "firing/comparison.h"
#include "verdict/bench.h"
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

std::string like_temperature(const Bench& bench, const firing::Comparison& compared) {
  if (!compared.shift_K) return bench.say("findings.like.beyond", {{"bound", bench.kelvins(firing::widest_shift_K)}});
  const double shift_K = *compared.shift_K;
  const std::string size = bench.about_kelvins(std::abs(shift_K));
  if (std::abs(shift_K) <= bench.limits.at("shift").first) {
    return bench.say(shift_K < 0 ? "findings.like.kelvin_less" : "findings.like.kelvin_more", {{"shift", size}});
  }
  return bench.say(shift_K < 0 ? "findings.like.too_cold" : "findings.like.too_hot", {{"shift", size}});
}

std::string like_hold(const Bench& bench, const firing::Comparison& compared) {
  if (compared.hold_beyond_whole) return bench.say("findings.like.whole_hold", {{"hold", bench.time(compared.hold_of_maker_s)}});
  if (compared.hold_beyond_hour) return bench.say("findings.like.hour_more");
  if (!compared.hold_s) return bench.say("findings.like.hold_unknown");
  return bench.say(*compared.hold_s < 0 ? "findings.like.hold_less" : "findings.like.hold_more",
                   {{"hold", bench.time(std::abs(*compared.hold_s))}});
}

/// What to change, and the value of the program it names, where it names one.
struct Way {
  std::string change;
  std::vector<Advised> advised;
};

/// The key of a value of the hottest stage.
std::string key_at_top(const trade::Program& program, std::string_view part) {
  return key_of(part, static_cast<int>(hottest_stage(program) - program.heating.data()) + 1);
}

/// Top or hold as the maker's program has it, where this program's own makes up the difference; empty where it does not.
Way way_of_maker(const Bench& bench, double shift_K) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  if (!request.instruction_program || request.instruction_program->heating.empty() || display_explains(bench, shift_K)) return {};
  const trade::HeatingStage& here = *hottest_stage(request.program);
  const trade::HeatingStage& maker = *hottest_stage(*request.instruction_program);
  const double higher_K = here.to.value.celsius() - maker.to.value.celsius();
  const double longer_s = here.hold.value.si() - maker.hold.value.si();
  if (higher_K * shift_K > 0 && std::abs(higher_K) >= 0.5 * std::abs(shift_K)) {
    const std::string to = bench.degrees(maker.to.value.celsius());
    return {bench.say("findings.degree.top_of_maker", {{"to", to}, {"asked", bench.degrees(here.to.value.celsius())}}),
            {{key_at_top(request.program, "findings.part.heating_to"), to}}};
  }
  if (std::abs(higher_K) < 1 && longer_s * shift_K > 0) {
    const std::string to = bench.time(maker.hold.value.si());
    return {bench.say("findings.degree.hold_of_maker", {{"to", to}, {"asked", bench.time(here.hold.value.si())}}),
            {{key_at_top(request.program, "findings.part.heating_hold"), to}}};
  }
  return {};
}

/// Top temperature to be keyed in so that the piece gets the maker's firing, in steps of the panel.
Way way_back(const Bench& bench, double shift_K) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  if (request.program.heating.empty()) return {bench.say("findings.degree.change_program"), {}};
  if (Way of_maker = way_of_maker(bench, shift_K); !of_maker.change.empty()) return of_maker;
  const double top_C = hottest_stage(request.program)->to.value.celsius();
  const double step_K = std::max(1.0, request.furnace.ability.temperature_step.value.si());
  const double to_C = top_C - step_K * std::round(shift_K / step_K);
  const std::string key_in = bench.say("findings.degree.key_in", {{"to", bench.degrees(to_C)}, {"asked", bench.degrees(top_C)}});
  return {display_explains(bench, shift_K)
              ? bench.say("findings.degree.or_correct", {{"key_in", key_in}, {"furnace", request.furnace.name}})
              : bench.say("findings.degree.or_nothing", {{"key_in", key_in}}),
          {{key_at_top(request.program, "findings.part.heating_to"), bench.degrees(to_C)}}};
}

/// "17", or "20 to 25".
std::string range_of(const Bench& bench, double least, double most) {
  const std::string low = bench.rounded(least), high = bench.rounded(most);
  return low == high ? low : bench.say("findings.degree.range", {{"least", low}, {"most", high}});
}

/// What the piece has at the end, for a firing that is compared with nothing.
std::string absolute(const Bench& bench, const PieceCase& piece) {
  const firing::PieceResult& here = *piece.here;
  const std::string core = bench.degrees(here.peak_core_C), surface = bench.degrees(here.peak_surface_C);
  const firing::PointResult& point = here.points.at(static_cast<std::size_t>(here.deciding_point));
  if (point.curve) {  // ln Theta, one decimal; Theta itself is what is kept
    const std::string least = bench.number(std::log(here.deciding_least), 1), most = bench.number(std::log(here.deciding_greatest), 1);
    const std::string value = least == most ? least : bench.say("findings.degree.range", {{"least", least}, {"most", most}});
    return bench.say("findings.degree.log_theta", {{"core", core}, {"surface", surface}, {"value", value}});
  }
  return bench.say(point.viscous ? "findings.degree.heat_work" : "findings.degree.z",
                   {{"core", core}, {"surface", surface}, {"value", range_of(bench, here.deciding_least, here.deciding_greatest)}});
}

void nothing_to_compare(Bench& bench, const PieceCase& piece) {
  if (piece.here->deciding_point < 0) return;  // nothing sinters or crystallises: the heat decides, and says so
  const std::string& name = piece.here->piece;
  const std::string numbers = absolute(bench, piece);
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const bool tray_stands = request.instruction_tray && request.instruction_tray->mass;
  const std::string_view why = !request.instruction ? "findings.degree.no_instruction"
                               : tray_stands        ? "findings.degree.furnace_cannot"
                                                    : "findings.degree.no_reference";
  Finding& finding = bench.add(untold(Aspect::degree_of_firing, name, bench.sentence(why, {{"piece", name}, {"numbers", numbers}})));
  finding.number = piece.here->deciding_least;
  finding.change = way_to_compare(bench);
}

}  // namespace

std::string way_to_compare(const Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  if (!request.instruction) return bench.say("findings.degree.name_instruction");
  const bool tray_stands = request.instruction_tray && request.instruction_tray->mass;
  return bench.say(tray_stands ? "findings.degree.another_furnace" : "findings.degree.weigh_tray");
}

bool display_explains(const Bench& bench, double shift_K) {
  const auto& display = bench.rehearsal.request.furnace.display_error;
  const double error_K = display ? display->error.value.si() : 0;
  return error_K * shift_K < 0 && std::abs(error_K) >= 0.5 * std::abs(shift_K);
}

std::string like(const Bench& bench, const firing::Comparison& compared) {
  constexpr double shown_K = 0.05, shown_s = 0.5;
  const bool same_heat = compared.shift_K && std::abs(*compared.shift_K) < shown_K;
  if (same_heat && compared.hold_s && std::abs(*compared.hold_s) < shown_s) return bench.say("findings.like.same");
  return bench.say("findings.like.both", {{"temperature", like_temperature(bench, compared)}, {"hold", like_hold(bench, compared)}});
}

void judge_degree(Bench& bench, const PieceCase& piece) {
  if (piece.compared == nullptr || piece.compared->quantity == firing::DecidingQuantity::none) {
    nothing_to_compare(bench, piece);
    return;
  }
  const firing::Comparison& compared = *piece.compared;
  const std::string& name = piece.here->piece;
  const bool alike = compared.shift_K && std::abs(*compared.shift_K) <= bench.limits.at("shift").first;
  const std::string sentence = bench.sentence(alike ? "findings.degree.alike" : "findings.degree.compared",
                                              {{"piece", name}, {"like", like(bench, compared)}, {"numbers", absolute(bench, piece)}});
  // Beyond the bounds of the search there is no number; 150 K stands for "more" in choosing the level.
  constexpr double beyond_K = firing::widest_shift_K;
  const Number shift_K =
      compared.shift_K ? bench.banded(Aspect::degree_of_firing, piece, [](const PieceCase& one) { return firing::shift_in(*one.compared); })
                       : Number{beyond_K};
  Finding finding = judged(bench, Aspect::degree_of_firing, name, shift_K, "shift", Side::either, sentence);
  finding.number = compared.shift_K;
  if (finding.level != Level::sound) {
    Way way = compared.shift_K ? way_back(bench, *compared.shift_K) : Way{bench.say("findings.degree.change_program"), {}};
    finding.change = std::move(way.change);
    finding.advised = std::move(way.advised);
  }
  if (piece.here->deciding_point >= 0) {
    finding.where = piece.section_name(piece.here->points.at(static_cast<std::size_t>(piece.here->deciding_point)));
  }
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
