// The chamber before the start: cold, damp, or dirty. None of it is computed, so it is said.
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

void not_warm(Bench& bench) {
  const trade::ChamberState& chamber = bench.rehearsal.request.firing.chamber;
  const trade::Furnace& furnace = bench.rehearsal.request.furnace;
  const std::string change =
      bench.say("findings.chamber.warm_up", {{"top", shown(bench, KeyedKind::temperature, top_C(bench.rehearsal.request.program))}});
  if (chamber.cold.value) {
    bench.add(
        broken_rule(bench, Aspect::chamber, "cold_chamber", bench.sentence("findings.chamber.cold", {{"furnace", furnace.name}}), change));
    return;
  }
  const double allowed_h = bench.limits.at("hours_since_firing").first;
  if (!chamber.since_last_firing || !(chamber.since_last_firing->value.si() > 3600 * allowed_h)) return;
  Finding finding = broken_rule(
      bench, Aspect::chamber, "cold_chamber",
      bench.sentence("findings.chamber.long_ago", {{"furnace", furnace.name}, {"time", bench.time(chamber.since_last_firing->value.si())}}),
      change);
  finding.number = chamber.since_last_firing->value.si() / 3600;
  finding.unit = "h";
  finding.limit = allowed_h;
  bench.add(std::move(finding));
}

void damp(Bench& bench) {
  const trade::ChamberState& chamber = bench.rehearsal.request.firing.chamber;
  const double humidity_percent = 100 * chamber.room_humidity.value.si();
  const bool humid = humidity_percent > bench.limits.at("room_humidity").first;
  const double allowed = bench.limits.at(humid ? "days_idle_humid" : "days_idle").first;
  if (!(chamber.days_idle.value > allowed)) return;
  Finding finding = broken_rule(bench, Aspect::chamber, "damp_chamber",
                                bench.sentence("findings.chamber.idle", {{"furnace", bench.rehearsal.request.furnace.name},
                                                                         {"days", bench.rounded(chamber.days_idle.value)},
                                                                         {"humidity", bench.number(humidity_percent)}}),
                                bench.say("findings.chamber.dry_out"));
  finding.number = chamber.days_idle.value;
  finding.unit = "days";
  finding.limit = allowed;
  bench.add(std::move(finding));
}

void dirty(Bench& bench) {
  const trade::ChamberState& chamber = bench.rehearsal.request.firing.chamber;
  const std::string& furnace = bench.rehearsal.request.furnace.name;
  if (!chamber.last_contaminating_firing.value.empty()) {
    bench.add(broken_rule(
        bench, Aspect::chamber, "contaminated_chamber",
        bench.sentence("findings.chamber.contaminated", {{"furnace", furnace}, {"firing", chamber.last_contaminating_firing.value}}),
        bench.say("findings.chamber.clean")));
  }
  if (chamber.cleaning_due.value) {
    bench.add(broken_rule(bench, Aspect::chamber, "contaminated_chamber",
                          bench.sentence("findings.chamber.cleaning_due", {{"furnace", furnace}}), bench.say("findings.chamber.clean")));
  }
}

}  // namespace

void judge_chamber(Bench& bench) {
  using trade::StageOfWork;
  const StageOfWork stage = bench.rehearsal.request.firing.stage.value;
  // These firings are the cure.
  if (stage == StageOfWork::warm_up || stage == StageOfWork::dry_out || stage == StageOfWork::cleaning) return;
  not_warm(bench);
  damp(bench);
  dirty(bench);
}

}  // namespace heatwork::verdict
