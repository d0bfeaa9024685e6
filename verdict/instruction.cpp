// The maker's sheet: its limits one by one, the material and the stage of work it is for.
#include <algorithm>
#include <cmath>

#include "firing/chamber.h"
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

constexpr double same = 1e-6;

/// Walks the limits of the sheet and counts those it has.
class SheetCheck {
 public:
  explicit SheetCheck(Bench& bench) : bench_(bench) {}

  template <class T>
  void at_most(const trade::Maybe<T>& limit, std::string_view what, KeyedKind kind, double value, int stage = 0) {
    if (!limit) return;
    count(&limit);
    if (value > number_of(limit->value) + same) broken("findings.instruction.at_most", what, kind, value, number_of(limit->value), stage);
  }
  template <class T>
  void at_least(const trade::Maybe<T>& limit, std::string_view what, KeyedKind kind, double value, int stage = 0) {
    if (!limit) return;
    count(&limit);
    if (value < number_of(limit->value) - same) broken("findings.instruction.at_least", what, kind, value, number_of(limit->value), stage);
  }
  /// A limit of pressure: its own words, for a program without vacuum breaks it too.
  void level(const trade::Maybe<quantity::Pressure>& limit, const trade::Program& program) {
    if (!limit) return;
    count(&limit);
    const double allowed_mbar = limit->value.si() / 100;
    if (!program.vacuum) {
      add(bench_.sentence("findings.instruction.no_vacuum", {{"limit", bench_.rounded(allowed_mbar)}}),
          bench_.say("findings.instruction.key_level", {{"limit", bench_.rounded(allowed_mbar)}}), {}, "mbar", allowed_mbar);
      return;
    }
    double highest = program.vacuum->level.value.si();
    for (const trade::HeatingStage& stage : program.heating)
      if (stage.vacuum_level) highest = std::max(highest, stage.vacuum_level->value.si());
    if (highest / 100 <= allowed_mbar + same) return;
    add(bench_.sentence("findings.instruction.level", {{"value", bench_.rounded(highest / 100)}, {"limit", bench_.rounded(allowed_mbar)}}),
        bench_.say("findings.instruction.key_level", {{"limit", bench_.rounded(allowed_mbar)}}), highest / 100, "mbar", allowed_mbar);
  }
  [[nodiscard]] std::size_t limits() const { return counted_.size(); }
  [[nodiscard]] int broken_ones() const { return broken_; }

 private:
  void count(const void* limit) {
    if (std::find(counted_.begin(), counted_.end(), limit) == counted_.end()) counted_.push_back(limit);
  }
  void broken(std::string_view key, std::string_view what, KeyedKind kind, double value, double limit, int stage) {
    Keyed keyed{what, stage, kind, value, {}, false};
    const std::string name = name_of(bench_, keyed), allowed = shown(bench_, kind, limit);
    add(bench_.sentence(key, {{"what", name}, {"value", shown(bench_, kind, value)}, {"limit", allowed}}),
        bench_.sentence("findings.instruction.key_in", {{"what", name}, {"limit", allowed}}), value, unit_of(kind), limit);
    // Natural cooling has no value of its own in the program.
    if (const std::string place = key_of(what, stage); !place.empty()) bench_.findings.back().advised = {{place, allowed}};
  }
  void add(const std::string& sentence, const std::string& change, std::optional<double> number, const std::string& unit, double limit) {
    Finding finding = broken_rule(bench_, Aspect::instruction, "outside_instruction", sentence, change);
    finding.number = number;
    finding.unit = unit;
    finding.limit = limit;
    finding.limit_from = LimitFrom::instruction;
    bench_.add(std::move(finding));
    ++broken_;
  }

  Bench& bench_;
  std::vector<const void*> counted_;
  int broken_ = 0;
};

/// Cooling as asked, or as the chamber does it by itself from where the stage begins.
void cooling_rates(SheetCheck& sheet, const trade::ResolvedFiring& request) {
  const trade::InstructionLimits& limits = request.instruction->limits;
  const double room_C = request.firing.chamber.room.value.celsius();
  const auto by_itself = [&](double from_C, double opening) {
    return 60 * firing::natural_cooling_per_s(request.furnace.natural_cooling, opening) * (from_C - room_C);
  };
  double from_C = top_C(request.program);
  int number = 1;
  for (const trade::CoolingStage& stage : request.program.cooling) {
    const double rate = stage.rate ? 60 * stage.rate->value.si() : by_itself(from_C, stage.opening.value.si());
    sheet.at_most(limits.cooling_rate_at_most, stage.rate ? "findings.part.cooling_rate" : "findings.part.cooling_by_itself",
                  KeyedKind::rate, rate, number++);
    from_C = stage.to.value.celsius();
  }
  const auto& opening = request.program.opening_temperature;
  if (opening && opening->value.celsius() < from_C - same)
    sheet.at_most(limits.cooling_rate_at_most, "findings.part.cooling_to_opening", KeyedKind::rate, by_itself(from_C, 0));
}

void sheet_limits(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const trade::InstructionLimits& limits = request.instruction->limits;
  const trade::Program& program = request.program;
  SheetCheck sheet(bench);
  sheet.at_most(limits.entry_at_most, "findings.part.entry", KeyedKind::temperature, program.entry.value.celsius());
  sheet.at_least(limits.drying_at_least, "findings.part.drying", KeyedKind::time, program.drying_time.value.si());
  sheet.at_least(limits.closing_at_least, "findings.part.closing", KeyedKind::time, program.closing_time.value.si());
  const trade::HeatingStage* hottest = hottest_stage(program);
  const double hold_s = hottest == nullptr ? 0 : hottest->hold.value.si();
  const int top_number = hottest == nullptr ? 1 : static_cast<int>(hottest - program.heating.data()) + 1;
  int number = 1;
  for (const trade::HeatingStage& stage : program.heating) {
    sheet.at_least(limits.rate_at_least, "findings.part.heating_rate", KeyedKind::rate, 60 * stage.rate.value.si(), number);
    sheet.at_most(limits.rate_at_most, "findings.part.heating_rate", KeyedKind::rate, 60 * stage.rate.value.si(), number);
    ++number;
  }
  sheet.at_least(limits.top_at_least, "findings.part.heating_to", KeyedKind::temperature, top_C(program), top_number);
  sheet.at_most(limits.top_at_most, "findings.part.heating_to", KeyedKind::temperature, top_C(program), top_number);
  sheet.at_least(limits.hold_at_least, "findings.part.heating_hold", KeyedKind::time, hold_s, top_number);
  sheet.at_most(limits.hold_at_most, "findings.part.heating_hold", KeyedKind::time, hold_s, top_number);
  if (program.vacuum)
    sheet.at_most(limits.vacuum_from_at_most, "findings.part.vacuum_from", KeyedKind::temperature, program.vacuum->from.value.celsius());
  sheet.level(limits.vacuum_level_at_most, program);
  cooling_rates(sheet, request);
  const double end_C = program.cooling.empty() ? top_C(program) : program.cooling.back().to.value.celsius();
  const double opens_C = program.opening_temperature ? program.opening_temperature->value.celsius() : end_C;
  sheet.at_most(limits.opening_at_most, "findings.part.opening", KeyedKind::temperature, opens_C);
  if (sheet.limits() == 0 || sheet.broken_ones() > 0) return;
  Finding finding;
  finding.aspect = Aspect::instruction;
  finding.level = Level::sound;
  finding.sentence = bench.sentence("findings.instruction.inside",
                                    {{"count", bench.number(static_cast<double>(sheet.limits()))}, {"sheet", request.instruction->name}});
  finding.limit_from = LimitFrom::instruction;
  bench.add(std::move(finding));
}

/// Another family than that of the sheet's material, where the piece holds none of it that is fired here.
void family(Bench& bench, const trade::Piece& piece) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const auto sheet = request.materials.find(request.instruction->material.value);
  const std::vector<const trade::Material*> fired = materials_fired(request, piece);
  if (sheet == request.materials.end() || sheet->second.family.empty() || fired.empty()) return;
  std::string has;
  for (const trade::Material* one : fired) {
    if (one->family == sheet->second.family || one->family.empty()) return;
    if (has.find(one->family) == std::string::npos) has += (has.empty() ? "" : ", ") + one->family;
  }
  bench.add(broken_rule(
      bench, Aspect::instruction, "other_family",
      bench.sentence("findings.instruction.other_family",
                     {{"sheet", request.instruction->name}, {"family", sheet->second.family}, {"piece", piece.name}, {"has", has}}),
      bench.say("findings.instruction.right_sheet", {{"has", has}})));
}

}  // namespace

void judge_instruction(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  if (!request.instruction) return;
  for (const trade::Piece& piece : request.pieces) family(bench, piece);
  const trade::StageOfWork of_sheet = request.instruction->stage.value, here = request.firing.stage.value;
  if (of_sheet != here) {
    bench.add(broken_rule(bench, Aspect::instruction, "other_stage",
                          bench.sentence("findings.instruction.other_stage", {{"sheet", request.instruction->name},
                                                                              {"of_sheet", std::string(trade::word(of_sheet))},
                                                                              {"here", std::string(trade::word(here))}}),
                          bench.say("findings.instruction.right_stage", {{"here", std::string(trade::word(here))}})));
  }
  sheet_limits(bench);
}

}  // namespace heatwork::verdict
