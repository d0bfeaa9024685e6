// Slips of unit: Fahrenheit for Celsius, minutes for seconds. A sound program is never accused: a number must be absurd as it stands and
// fit when it is read in the other unit.
#include <algorithm>
#include <cmath>
#include <optional>

#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

double fahrenheit_read(double number_F) {
  return (number_F - 32) / 1.8;
}

/// What a number should be, and who says so.
struct Wanted {
  double low = 0, high = 0;
  std::string who;  ///< "the maker's program has 811 °C"
  bool by_maker = false;
};

/// Firing temperature of what is fired; absent where the material names none.
std::optional<Wanted> by_material(const Bench& bench) {
  std::optional<Wanted> wanted;
  for (const trade::Piece& piece : bench.rehearsal.request.pieces) {
    for (const trade::Material* material : materials_fired(bench.rehearsal.request, piece)) {
      const trade::Estimate* nominal = material->find("nominal_temperature");
      if (nominal == nullptr) continue;
      if (!wanted) wanted = Wanted{nominal->low, nominal->high, {}, false};
      wanted->low = std::min(wanted->low, nominal->low);
      wanted->high = std::max(wanted->high, nominal->high);
    }
  }
  if (wanted) {
    wanted->who = bench.say("findings.units.by_material", {{"low", shown(bench, KeyedKind::temperature, wanted->low)},
                                                           {"high", shown(bench, KeyedKind::temperature, wanted->high)}});
  }
  return wanted;
}

std::optional<Wanted> wanted_of(const Bench& bench, const Keyed& keyed) {
  if (keyed.maker) {
    const std::string who = bench.say("findings.units.by_maker", {{"value", shown(bench, keyed.kind, *keyed.maker)}});
    return Wanted{*keyed.maker, *keyed.maker, who, true};
  }
  if (keyed.kind != KeyedKind::temperature || !keyed.top || bench.rehearsal.request.instruction_program) return {};
  return by_material(bench);
}

Finding slip(const Bench& bench, const Keyed& keyed, const Wanted& wanted, std::string sentence, double to) {
  const std::string change =
      bench.sentence("findings.units.key_in", {{"what", name_of(bench, keyed)}, {"to", shown(bench, keyed.kind, to)}});
  Finding finding = broken_rule(bench, Aspect::units, "unit_slip", std::move(sentence), change);
  finding.number = keyed.value;
  finding.unit = unit_of(keyed.kind);
  finding.limit = keyed.value > wanted.high ? wanted.high : wanted.low;
  if (wanted.by_maker) finding.limit_from = LimitFrom::instruction;
  finding.advised = {{key_of(keyed.part, keyed.stage), shown(bench, keyed.kind, to)}};
  return finding;
}

std::optional<Finding> temperature_slip(const Bench& bench, const Keyed& keyed) {
  const std::optional<Wanted> wanted = wanted_of(bench, keyed);
  if (!wanted) return {};
  const double far_K = bench.limits.at("unit_slip_far").first;
  const double near_K = bench.limits.at(wanted->by_maker ? "unit_slip_of_maker" : "unit_slip_near").first;
  const double read_C = fahrenheit_read(keyed.value), meant_C = 1.8 * keyed.value + 32;
  const auto fits = [&](double C) { return C >= wanted->low - near_K && C <= wanted->high + near_K; };
  const bool too_hot = keyed.value > wanted->high + far_K && fits(read_C);
  const bool too_cold = keyed.value < wanted->low - far_K && fits(meant_C);
  if (!too_hot && !too_cold) return {};
  const double to_C = std::round(too_hot ? read_C : meant_C);
  const std::string value = too_hot ? bench.number(keyed.value) + " °C" : shown(bench, keyed.kind, keyed.value);
  const std::string sentence = bench.sentence(too_hot ? "findings.units.fahrenheit_as_celsius" : "findings.units.celsius_as_fahrenheit",
                                              {{"what", name_of(bench, keyed)},
                                               {"value", value},
                                               {"number", bench.number(std::round(too_hot ? keyed.value : meant_C))},
                                               {"meant", shown(bench, keyed.kind, to_C)},
                                               {"who", wanted->who}});
  return slip(bench, keyed, *wanted, sentence, to_C);
}

/// The furnace's own maximum, for programs that nothing else is known of: so far beyond it that only the other unit fits.
std::optional<Finding> furnace_slip(const Bench& bench, const Keyed& keyed) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  if (keyed.kind != KeyedKind::temperature || !keyed.top || request.firing.stage.value == trade::StageOfWork::sinter) return {};
  const double maximum_C = request.furnace.maximum.value.celsius();
  if (keyed.maker || by_material(bench) || !(keyed.value > maximum_C + bench.limits.at("unit_slip_far").first)) return {};
  const double read_C = std::round(fahrenheit_read(keyed.value));
  if (read_C > maximum_C) return {};
  const Wanted wanted{maximum_C, maximum_C,
                      bench.say("findings.units.by_furnace", {{"value", shown(bench, KeyedKind::temperature, maximum_C)}}), false};
  const std::string sentence = bench.sentence("findings.units.fahrenheit_as_celsius", {{"what", name_of(bench, keyed)},
                                                                                       {"value", shown(bench, keyed.kind, keyed.value)},
                                                                                       {"number", bench.number(keyed.value)},
                                                                                       {"meant", shown(bench, keyed.kind, read_C)},
                                                                                       {"who", wanted.who}});
  return slip(bench, keyed, wanted, sentence, read_C);
}

/// Sixty times, or a sixtieth of the maker's.
std::optional<Finding> sixty(const Bench& bench, const Keyed& keyed) {
  if (!keyed.maker || !(keyed.value > 0) || !(*keyed.maker > 0)) return {};
  const double about = bench.limits.at("slip_of_sixty").first;
  const double times = keyed.value / *keyed.maker;
  const auto near = [&](double wanted) { return times < wanted * about && times > wanted / about; };
  if (!near(60) && !near(1.0 / 60)) return {};
  const bool rate = keyed.kind == KeyedKind::rate;
  const std::string_view key = near(60) ? (rate ? "findings.units.second_as_minute_rate" : "findings.units.minutes_as_seconds")
                                        : (rate ? "findings.units.minute_as_second_rate" : "findings.units.seconds_as_minutes");
  const std::optional<Wanted> wanted = wanted_of(bench, keyed);
  const std::string sentence =
      bench.sentence(key, {{"what", name_of(bench, keyed)}, {"value", shown(bench, keyed.kind, keyed.value)}, {"who", wanted->who}});
  return slip(bench, keyed, *wanted, sentence, *keyed.maker);
}

bool fires_powder(const Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  return std::any_of(request.pieces.begin(), request.pieces.end(), [&](const trade::Piece& piece) {
    const auto fired = materials_fired(request, piece);
    return std::any_of(fired.begin(), fired.end(), [](const trade::Material* one) { return one->find("nominal_temperature") != nullptr; });
  });
}

/// A number that no powder is fired with, while the same number in the other unit is usual. Only without a maker's program.
std::optional<Finding> absurd(const Bench& bench, const Keyed& keyed) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  if (request.instruction_program || !fires_powder(bench)) return {};
  const bool wet = std::any_of(request.pieces.begin(), request.pieces.end(), goes_in_wet);
  const double longest_s = 60 * bench.limits.at("longest_powder_hold").first, shortest_s = bench.limits.at("shortest_drying").first;
  const double slowest = bench.limits.at("usual_rate_least").first, fastest = bench.limits.at("usual_rate_most").first;
  const bool drying = keyed.part == std::string_view("findings.part.drying");
  const bool heating = keyed.part == std::string_view("findings.part.heating_rate");
  std::string_view key;
  double limit = 0, to = 0;
  if (keyed.part == std::string_view("findings.part.heating_hold") && keyed.value > longest_s) {
    key = "findings.units.absurdly_long";
    limit = longest_s;
    to = keyed.value / 60;
  } else if (drying && wet && keyed.value > 0 && keyed.value < shortest_s) {
    key = "findings.units.absurdly_short";
    limit = shortest_s;
    to = 60 * keyed.value;
  } else if (heating && keyed.value < slowest) {
    key = "findings.units.absurdly_slow";
    limit = slowest;
    to = 60 * keyed.value;
  } else if (heating && keyed.value > fastest) {
    key = "findings.units.absurdly_fast";
    limit = fastest;
    to = keyed.value / 60;
  } else {
    return {};
  }
  const std::string sentence = bench.sentence(
      key, {{"what", name_of(bench, keyed)}, {"value", shown(bench, keyed.kind, keyed.value)}, {"limit", shown(bench, keyed.kind, limit)}});
  return slip(bench, keyed, {limit, limit, {}, false}, sentence, to);
}

}  // namespace

void judge_units(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const trade::Program* maker = request.instruction_program ? &*request.instruction_program : nullptr;
  std::vector<Finding> slips;
  for (const Keyed& keyed : keyed_in(request.program, maker)) {
    std::optional<Finding> found = keyed.kind == KeyedKind::temperature ? temperature_slip(bench, keyed) : sixty(bench, keyed);
    if (!found) found = furnace_slip(bench, keyed);
    if (!found) found = absurd(bench, keyed);
    if (!found) continue;
    slips.insert(keyed.top ? slips.begin() : slips.end(), std::move(*found));
  }
  for (Finding& found : slips) bench.add(std::move(found));
}

}  // namespace heatwork::verdict
