// Wet powder: how hot it goes in, and how long it dries where the water is not computed.
#include <algorithm>

#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

template <class Question>
std::string names_of(const Bench& bench, const Question& is_one) {
  std::string names;
  for (const trade::Piece& piece : bench.rehearsal.request.pieces)
    if (is_one(piece)) names += (names.empty() ? "" : ", ") + piece.name;
  return names;
}

}  // namespace

void judge_entry(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const std::string wet = names_of(bench, goes_in_wet);
  if (wet.empty()) return;
  const double entry_C = request.program.entry.value.celsius();
  Finding finding;
  double key_in_C = 0;
  if (request.instruction_program) {
    const double maker_C = request.instruction_program->entry.value.celsius();
    finding = judged(bench, Aspect::entry, "", {entry_C - maker_C}, "entry_over_maker", Side::above,
                     bench.sentence("findings.entry.over_maker", {{"piece", wet},
                                                                  {"entry", shown(bench, KeyedKind::temperature, entry_C)},
                                                                  {"maker", shown(bench, KeyedKind::temperature, maker_C)}}));
    key_in_C = maker_C;
  } else {
    key_in_C = bench.limits.at("entry_wet").first;
    finding = judged(bench, Aspect::entry, "", {entry_C}, "entry_wet", Side::above,
                     bench.sentence("findings.entry.alone", {{"piece", wet}, {"entry", shown(bench, KeyedKind::temperature, entry_C)}}));
  }
  if (finding.level == Level::sound) return;
  finding.change = bench.say("findings.entry.key_in", {{"to", shown(bench, KeyedKind::temperature, key_in_C)}});
  finding.advised = {{key_of("findings.part.entry", 0), shown(bench, KeyedKind::temperature, key_in_C)}};
  bench.add(std::move(finding));
}

void judge_drying(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const bool nothing_computed = bench.rehearsal.impossible.has_value() || !bench.rehearsal.tray_known;
  const double drying_s = request.program.drying_time.value.si();
  for (const trade::Piece& piece : request.pieces) {
    if (!goes_in_wet(piece) || (!nothing_computed && !liquid_not_computed(request, piece))) continue;
    Finding finding;
    double to_s = 60 * bench.limits.at("drying_minutes").first;
    if (request.instruction_program) {
      to_s = request.instruction_program->drying_time.value.si();
      if (!(to_s > 0)) continue;
      finding = judged(bench, Aspect::water, piece.name, {100 * drying_s / to_s}, "drying_share", Side::below,
                       bench.sentence("findings.water.dries_shorter",
                                      {{"piece", piece.name}, {"time", bench.time(drying_s)}, {"maker", bench.time(to_s)}}));
    } else {
      finding = judged(bench, Aspect::water, piece.name, {drying_s / 60}, "drying_minutes", Side::below,
                       bench.sentence("findings.water.dries_short",
                                      {{"piece", piece.name}, {"time", bench.time(drying_s)}, {"usual", bench.time(to_s)}}));
    }
    if (finding.level == Level::sound) continue;
    finding.change = bench.say("findings.water.key_in_drying", {{"to", bench.time(to_s)}});
    finding.advised = {{key_of("findings.part.drying", 0), bench.time(to_s)}};
    bench.add(std::move(finding));
  }
}

}  // namespace heatwork::verdict
