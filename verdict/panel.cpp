// What the panel of the furnace takes: number of stages, ranges, steps; and stages that go the wrong way.
#include <cmath>

#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

void stages(Bench& bench, std::size_t count, int allowed, std::string_view sentence, std::string_view change) {
  if (static_cast<int>(count) <= allowed) return;
  Finding finding = broken_rule(bench, Aspect::panel, "panel_range",
                                bench.sentence(sentence, {{"furnace", bench.rehearsal.request.furnace.name},
                                                          {"program", bench.rehearsal.request.program.name},
                                                          {"have", bench.number(static_cast<double>(count))},
                                                          {"allowed", bench.number(allowed)}}),
                                bench.say(change, {{"allowed", bench.number(allowed)}}));
  finding.number = static_cast<double>(count);
  finding.limit = allowed;
  bench.add(std::move(finding));
}

void out_of_range(Bench& bench, const Keyed& keyed, double least, double most) {
  if (keyed.value >= least - 1e-9 && keyed.value <= most + 1e-9) return;
  const double allowed = keyed.value < least ? least : most;
  const std::string what = name_of(bench, keyed), limit = shown(bench, keyed.kind, allowed);
  Finding finding = broken_rule(bench, Aspect::panel, "panel_range",
                                bench.sentence(keyed.value < least ? "findings.panel.too_little" : "findings.panel.too_much",
                                               {{"what", what},
                                                {"value", shown(bench, keyed.kind, keyed.value)},
                                                {"furnace", bench.rehearsal.request.furnace.name},
                                                {"limit", limit}}),
                                bench.sentence("findings.panel.key_in", {{"what", what}, {"to", limit}}));
  finding.number = keyed.value;
  finding.unit = unit_of(keyed.kind);
  finding.limit = allowed;
  finding.advised = {{key_of(keyed.part, keyed.stage), limit}};
  bench.add(std::move(finding));
}

void ranges(Bench& bench, const std::vector<Keyed>& keyed) {
  const trade::FurnaceAbility& ability = bench.rehearsal.request.furnace.ability;
  for (const Keyed& one : keyed) {
    if (one.kind == KeyedKind::rate) out_of_range(bench, one, 60 * ability.slowest_rate.value.si(), 60 * ability.fastest_rate.value.si());
    const bool hold =
        one.part == std::string_view("findings.part.heating_hold") || one.part == std::string_view("findings.part.cooling_hold");
    if (hold) out_of_range(bench, one, 0, ability.longest_hold.value.si());
  }
}

/// Numbers between the steps of the panel, and the nearest that it takes.
struct OffStep {
  std::string listed, nearest;
  int count = 0;
  double first = 0, first_to = 0;
  std::vector<Advised> advised;
  void add(const Bench& bench, const Keyed& keyed, double to) {
    const char* comma = count == 0 ? "" : ", ";
    listed += comma + name_of(bench, keyed) + ' ' + shown(bench, keyed.kind, keyed.value);
    nearest += comma + name_of(bench, keyed) + ' ' + shown(bench, keyed.kind, to);
    advised.push_back({key_of(keyed.part, keyed.stage), shown(bench, keyed.kind, to)});
    if (count++ == 0) {
      first = keyed.value;
      first_to = to;
    }
  }
};

void steps(Bench& bench, const std::vector<Keyed>& keyed, KeyedKind kind, double step, std::string_view limit,
           const std::string& step_shown) {
  if (!(step > 0)) return;
  const double allowed = bench.limits.at(limit).first;
  OffStep off;
  for (const Keyed& one : keyed) {
    if (one.kind != kind) continue;
    const double to = step * std::round(one.value / step);
    if (std::abs(one.value - to) > allowed + 1e-9) off.add(bench, one, to);
  }
  if (off.count == 0) return;
  Finding finding =
      broken_rule(bench, Aspect::panel, "panel_step",
                  bench.sentence("findings.panel.off_step",
                                 {{"furnace", bench.rehearsal.request.furnace.name}, {"step", step_shown}, {"listed", off.listed}}),
                  bench.say("findings.panel.nearest", {{"listed", off.nearest}}));
  finding.number = off.first;
  finding.unit = unit_of(kind);
  finding.limit = off.first_to;
  finding.advised = std::move(off.advised);
  bench.add(std::move(finding));
}

void wrong_way(Bench& bench, std::string_view sentence, std::string_view change, std::size_t index, double from_C, double to_C) {
  Finding finding = broken_rule(bench, Aspect::panel, "wrong_direction",
                                bench.sentence(sentence, {{"stage", bench.number(static_cast<double>(index) + 1)},
                                                          {"from", shown(bench, KeyedKind::temperature, from_C)},
                                                          {"to", shown(bench, KeyedKind::temperature, to_C)}}),
                                bench.say(change, {{"from", shown(bench, KeyedKind::temperature, from_C)}}));
  finding.number = to_C;
  finding.unit = "°C";
  finding.limit = from_C;
  bench.add(std::move(finding));
}

void directions(Bench& bench) {
  const trade::Program& program = bench.rehearsal.request.program;
  double from_C = program.entry.value.celsius();
  for (std::size_t i = 0; i < program.heating.size(); ++i) {
    const double to_C = program.heating[i].to.value.celsius();
    if (to_C < from_C - 1e-9) wrong_way(bench, "findings.panel.heating_falls", "findings.panel.heat_above", i, from_C, to_C);
    from_C = to_C;
  }
  for (std::size_t i = 0; i < program.cooling.size(); ++i) {
    const double to_C = program.cooling[i].to.value.celsius();
    if (to_C > from_C + 1e-9) wrong_way(bench, "findings.panel.cooling_rises", "findings.panel.cool_below", i, from_C, to_C);
    from_C = to_C;
  }
}

}  // namespace

void judge_panel(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const trade::FurnaceAbility& ability = request.furnace.ability;
  stages(bench, request.program.heating.size(), ability.heating_stages.value, "findings.panel.heating_stages",
         "findings.panel.fewer_heating");
  stages(bench, request.program.cooling.size(), ability.cooling_stages.value, "findings.panel.cooling_stages",
         "findings.panel.fewer_cooling");
  directions(bench);
  const std::vector<Keyed> keyed = keyed_in(request.program, nullptr);
  ranges(bench, keyed);
  const double temperature_K = ability.temperature_step.value.si(), rate = 60 * ability.rate_step.value.si();
  steps(bench, keyed, KeyedKind::temperature, temperature_K, "panel_temperature", bench.about_kelvins(temperature_K));
  steps(bench, keyed, KeyedKind::rate, rate, "panel_rate", bench.rounded(bench.in_steps(rate)) + bench.unit_of_rates());
  steps(bench, keyed, KeyedKind::time, ability.time_step.value.si(), "panel_time", bench.time(ability.time_step.value.si()));
}

}  // namespace heatwork::verdict
