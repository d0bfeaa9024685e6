// Beside the computed tension: opened while the glass is soft, a glass that expands more than its core, a thick veneer, heated too fast.
#include <algorithm>
#include <cmath>

#include "firing/material_physics.h"
#include "verdict/stress.h"

namespace heatwork::verdict {
namespace {

constexpr double MPa = 1e6, mm = 1e-3, ppm = 1e-6;
/// How far below its transition a glass is best when the chamber opens. source: benetti-thesis [K]
constexpr double below_transition_K = 50;

/// The finding of one section unless it is sound, and even so where the maker's own firing breaks the limit too.
struct OfSection {
  const StressedSection* of = nullptr;
  Number number;
};

template <class NumberOf>
OfSection most(const std::vector<StressedSection>& sections, const NumberOf& number_of) {
  OfSection found;
  for (const StressedSection& one : sections) {
    const std::optional<Number> number = number_of(one);
    if (number && (found.of == nullptr || number->nominal > found.number.nominal)) found = {&one, *number};
  }
  return found;
}

void add_unless_sound(Bench& bench, Finding finding, const OfSection& told, std::string change) {
  if (finding.level == Level::sound) return;
  finding.where = told.of->stress->section;
  finding.change = std::move(change);
  bench.add(std::move(finding));
}

/// Of the opening, over the transition and the range that is known in. [K]
std::optional<Number> over_transition(const Bench& bench, const StressedSection& one) {
  if (!one.stress->opened_at_C) return std::nullopt;
  const double transition_C = one.stress->glass_transition_C;
  Number number{*one.stress->opened_at_C - transition_C};
  if (one.maker != nullptr && one.maker->opened_at_C) number.maker = *one.maker->opened_at_C - transition_C;
  number.band_follows = bench.band_follows();
  if (one.layers.layers.empty() || number.band_follows) return number;
  const physics::InputRange& range = one.layers.ranges.transition_K;
  number.low = *one.stress->opened_at_C + physics::zero_celsius_K - range.high;
  number.high = *one.stress->opened_at_C + physics::zero_celsius_K - range.low;
  number.widest = "dilatometer_transition";
  return number;
}

/// The fastest heating of a section's surface while the layer is a solid. [K/s]
struct Heating {
  double rate_K_per_s = 0, at_C = 0;
};

Heating fastest(const std::vector<double>& time_s, const std::vector<double>& surface_C, double below_C) {
  Heating fastest;
  for (std::size_t i = 1; i < std::min(time_s.size(), surface_C.size()); ++i) {
    const double lasts_s = time_s[i] - time_s[i - 1];
    if (!(lasts_s > 0) || surface_C[i] > below_C) continue;
    const double rate = (surface_C[i] - surface_C[i - 1]) / lasts_s;
    if (rate > fastest.rate_K_per_s) fastest = {rate, surface_C[i]};
  }
  return fastest;
}

/// Bound of the tension in a layer of a section that is heated so. theory: (stress-judgement.3) [Pa]
double heated_tension_Pa(const physics::StressLayer& layer, double depth_m, const Heating& heating) {
  const double stiff = layer.expansion_per_K.at_C(heating.at_C) * layer.youngs_Pa / (1 - layer.poisson);
  const double heat = layer.heat.specific_heat_J_per_kgK.at_C(heating.at_C) * layer.heat.density_kg_per_m3 /
                      layer.heat.conductivity_W_per_mK.at_C(heating.at_C);
  return stiff * heat * heating.rate_K_per_s * depth_m * depth_m / 3;
}

struct Heated {
  const StressedSection* of = nullptr;
  std::size_t layer = 0;
  Heating heating;
  double tension_MPa = 0;
};

/// The layers of one sort that are drawn most while heated; metal gives way and build-ups bear nothing.
Heated most_heated(const Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections, bool glass) {
  Heated most;
  for (const StressedSection& one : sections) {
    double depth_m = 0;
    for (const physics::StressLayer& layer : one.layers.layers) depth_m += layer.heat.thickness_m;
    if (one.section->inside.value == trade::SectionInside::open) depth_m /= 2;
    for (std::size_t i = 0; i < one.layers.layers.size(); ++i) {
      const physics::StressLayer& layer = one.layers.layers[i];
      const trade::Material& material = bench.rehearsal.request.materials.at(one.layers.materials[i]);
      if (layer.glass.has_value() != glass || one.section->layers[i].green || material.kind == trade::MaterialKind::metal) continue;
      const double below_C = layer.glass ? one.layers.transition_K[i] - physics::zero_celsius_K : HUGE_VAL;
      const Heating heating = fastest(piece.firing->time_s, one.heat->surface_C, below_C);
      const double tension_MPa = heated_tension_Pa(layer, depth_m, heating) / MPa;
      if (tension_MPa > most.tension_MPa) most = {&one, i, heating, tension_MPa};
    }
  }
  return most;
}

void judge_heated(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections, bool glass) {
  const Heated here = most_heated(bench, piece, sections, glass);
  if (here.of == nullptr) return;
  Number number{here.tension_MPa};
  if (piece.maker != nullptr) {
    // The same layer under the maker's program: its tension goes with its own fastest heating.
    const std::size_t s = static_cast<std::size_t>(here.of->heat - piece.here->sections.data());
    const physics::StressLayer& layer = here.of->layers.layers[here.layer];
    const double below_C = layer.glass ? here.of->layers.transition_K[here.layer] - physics::zero_celsius_K : HUGE_VAL;
    const Heating of_maker = fastest(piece.maker_firing->time_s, piece.maker_section(s)->surface_C, below_C);
    number.maker = here.tension_MPa * of_maker.rate_K_per_s / here.heating.rate_K_per_s;
  }
  const std::string rate = bench.number(bench.in_steps(60 * here.heating.rate_K_per_s)) + bench.unit_of_rates();
  Finding finding =
      judged(bench, Aspect::cooling, piece.here->piece, number, glass ? "heated_glass_tension" : "heated_core_tension", Side::above,
             bench.sentence("findings.stress.heated", {{"piece", piece.here->piece},
                                                       {"section", here.of->stress->section},
                                                       {"material", label_of(bench, here.of->layers.materials[here.layer])},
                                                       {"rate", rate},
                                                       {"at", bench.degrees(here.heating.at_C)},
                                                       {"tension", bench.rounded(here.tension_MPa)}}),
             number.maker ? bench.rounded(*number.maker) + " MPa" : std::string());
  add_unless_sound(bench, std::move(finding), {here.of, number}, bench.say("findings.stress.heat_gently"));
}

}  // namespace

void judge_opening(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections) {
  const OfSection told = most(sections, [&](const StressedSection& one) { return over_transition(bench, one); });
  if (told.of == nullptr) return;
  const double over_K = told.number.nominal;
  const std::string by = bench.kelvins(std::abs(over_K)), transition = bench.degrees(told.of->stress->glass_transition_C);
  const std::string at = bench.degrees(*told.of->stress->opened_at_C);
  const std::string_view key = over_K > 0 ? "findings.stress.opened_above" : "findings.stress.opened_near";
  Finding finding = judged(
      bench, Aspect::cooling, piece.here->piece, told.number, "opened_over_transition", Side::above,
      bench.sentence(
          key, {{"piece", piece.here->piece}, {"section", told.of->stress->section}, {"at", at}, {"by", by}, {"transition", transition}}),
      told.number.maker ? bench.degrees(*told.number.maker + told.of->stress->glass_transition_C) : std::string());
  // Where only the range of the transition reaches the opening, the finding is of that range and asks for nothing else.
  const auto& opening = bench.rehearsal.request.program.opening_temperature;
  std::string change;
  if (opening) {
    const double to_C = std::floor(opening->value.celsius() - over_K - below_transition_K);
    change = bench.say("findings.stress.open_at", {{"to", bench.degrees(to_C)}});
    finding.advised.push_back({"opening_temperature", bench.degrees(to_C)});
  } else {
    change = bench.say("findings.stress.open_later");
  }
  add_unless_sound(bench, std::move(finding), told, std::move(change));
}

void judge_pair(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections) {
  // The least mismatch is the worst one.
  const OfSection told = most(sections, [&](const StressedSection& one) -> std::optional<Number> {
    if (!one.paired() || one.layers.layers[one.layers.partner].glass) return std::nullopt;
    return Number{-one.stress->mismatch_per_K / ppm};
  });
  if (told.of == nullptr) return;
  const physics::InputRange& range = told.of->layers.ranges.expansion_per_K;
  Number number{-told.number.nominal};
  number.band_follows = bench.band_follows();
  if (!number.band_follows) {
    number.low = number.nominal - range.high / ppm;
    number.high = number.nominal - range.low / ppm;
    number.widest = "pair_expansion";
  }
  // A pair that may as well be the wrong way round is judged by its tension; only one that is by its own number is named here.
  if (number.nominal >= bench.limits.at("pair_mismatch").first) return;
  Finding finding = judged(bench, Aspect::cooling, piece.here->piece, number, "pair_mismatch", Side::below,
                           bench.sentence("findings.stress.wrong_way", {{"piece", piece.here->piece},
                                                                        {"material", told.of->glass(bench)},
                                                                        {"partner", told.of->partner(bench)},
                                                                        {"by", bench.number(-number.nominal, 1)}}));
  add_unless_sound(bench, std::move(finding), told, bench.say("findings.stress.right_way"));
}

void judge_veneer(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections) {
  const OfSection told = most(sections, [&](const StressedSection& one) -> std::optional<Number> {
    if (!one.paired() || one.layers.layers[one.layers.partner].glass) return std::nullopt;
    double thickness_m = 0;
    for (const physics::StressLayer& layer : one.layers.layers)
      if (layer.glass) thickness_m += layer.heat.thickness_m;
    return Number{thickness_m / mm};
  });
  if (told.of == nullptr) return;
  Finding finding = judged(bench, Aspect::cooling, piece.here->piece, told.number, "veneer_thickness", Side::above,
                           bench.sentence("findings.stress.thick", {{"piece", piece.here->piece},
                                                                    {"section", told.of->stress->section},
                                                                    {"thickness", bench.number(told.number.nominal, 1)}}));
  add_unless_sound(bench, std::move(finding), told, bench.say("findings.stress.thinner"));
}

void judge_heating(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections) {
  judge_heated(bench, piece, sections, true);
  judge_heated(bench, piece, sections, false);
}

}  // namespace heatwork::verdict
