// Stress of a cooled piece: the tension that stays in its glass, the highest on the way there, and what pulls its layers apart.
#include "verdict/stress.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "trade/sentences.h"

namespace heatwork::verdict {
namespace {

using Figure = double physics::LayerCooling::*;

constexpr double MPa = 1e6;
/// Less than that counts as hardly any change. source: chosen-here [MPa]
constexpr double hardly_MPa = 1.0;

constexpr Figure stays = &physics::LayerCooling::highest_hoop_Pa;
constexpr Figure on_the_way = &physics::LayerCooling::transient_highest_Pa;
constexpr Figure across = &physics::LayerCooling::radial_at_inner_Pa;

/// One number of the glass of one form, judged.
struct Told {
  const StressedSection* of = nullptr;
  const firing::FormStress* form = nullptr;
  Number number;
  Assessment assessment;

  [[nodiscard]] bool known() const { return form != nullptr; }
};

const physics::LayerCooling& glass_of(const firing::SectionStress& section, const firing::FormStress& form) {
  return form.layers.at(section.glass);
}

std::string widest_of(const StressedSection& of, const physics::StressIntervals& interval) {
  switch (interval.widest()) {
    case physics::UncertainInput::expansion:
      return of.layers.layers.empty() || of.paired() ? "pair_expansion" : "glass_expansion";
    case physics::UncertainInput::liquid_expansion:
      return "liquid_expansion";
    case physics::UncertainInput::activation:
      return "relaxation_activation";
    case physics::UncertainInput::transition:
      return "dilatometer_transition";
  }
  return {};
}

/// The number with its band: the interval of the set, and by how much the steps may be off.
Number number_of(const Bench& bench, const StressedSection& of, std::size_t form_index, Figure figure) {
  const firing::FormStress& form = of.stress->forms[form_index];
  Number number{glass_of(*of.stress, form).*figure / MPa};
  number.band_follows = bench.band_follows() && !form.interval;
  if (form.interval) {
    const auto at = std::find(physics::layer_stresses.begin(), physics::layer_stresses.end(), figure);
    const physics::StressInterval& range =
        form.interval->layers.at(of.stress->glass).at(static_cast<std::size_t>(at - physics::layer_stresses.begin()));
    number.low = std::min(range.low_Pa / MPa, number.nominal);
    number.high = std::max(range.high_Pa / MPa, number.nominal);
    widen(number.low, number.high, number.nominal, form.error_Pa / MPa, form.error_Pa / MPa);
    number.widest = widest_of(of, *form.interval);
  }
  // No sheet asks for a glass that expands more than its core, so there the maker's firing excuses nothing.
  if (of.maker != nullptr && form_index < of.maker->forms.size() && of.stress->mismatch_per_K >= 0)
    number.maker = glass_of(*of.maker, of.maker->forms[form_index]).*figure / MPa;
  return number;
}

/// Bands were asked for, and there is none of this: what was carried in came without, or at an end of a range no such glass can be.
bool lacks_band(const Bench& bench, const firing::FormStress& form) {
  return bench.rehearsal.bands && !form.interval;
}

bool takes_part(const firing::FormStress& form, Figure figure) {
  const bool curved = form.form == physics::StressForm::sphere || form.form == physics::StressForm::cylinder;
  return !form.remark_only && (figure != across || curved);
}

/// Of all sections and forms the one with the gravest level, of two alike the one with more tension.
Told gravest(const Bench& bench, const std::vector<StressedSection>& sections, Figure figure, std::string_view limit) {
  Told told;
  for (const StressedSection& of : sections) {
    if (figure == across && of.stress->glass == 0) continue;
    for (std::size_t f = 0; f < of.stress->forms.size(); ++f) {
      if (!takes_part(of.stress->forms[f], figure)) continue;
      Told one{&of, &of.stress->forms[f], number_of(bench, of, f, figure), {}};
      one.assessment = assess(one.number, bench.limits.at(limit), Side::above);
      if (lacks_band(bench, *one.form)) one.assessment.level = Level::cannot_tell;  // a pair's stress without its band tells no level
      const bool worse = !told.known() || one.assessment.level < told.assessment.level ||
                         (one.assessment.level == told.assessment.level && one.number.nominal > told.number.nominal);
      if (worse) told = one;
    }
  }
  return told;
}

std::string form_in_words(const Bench& bench, const firing::FormStress& form) {
  std::string key = "forms." + std::string(firing::word(form.form));
  std::replace(key.begin(), key.end(), '-', '_');
  return bench.say(key);
}

std::string megapascals(const Bench& bench, double value_MPa) {
  return bench.number(value_MPa, std::abs(value_MPa) < 9.95 ? 1 : 0);
}

std::string maker_says(const Bench& bench, const Number& number) {
  return number.maker ? megapascals(bench, *number.maker) + " MPa" : std::string();
}

/// The measurement that narrows an input, as words go by.
std::string_view measurement_of(const std::string& input) {
  if (input == "pair_expansion") return "findings.stress.measurement.pair_expansion";
  if (input == "glass_expansion") return "findings.stress.measurement.glass_expansion";
  if (input == "liquid_expansion") return "findings.stress.measurement.liquid_expansion";
  if (input == "relaxation_activation") return "findings.stress.measurement.relaxation_activation";
  return "findings.stress.measurement.dilatometer_transition";
}

/// The finding of one number, with what would settle it where it cannot be told.
Finding finding_of(const Bench& bench, const PieceCase& piece, const Told& told, std::string_view limit, std::string sentence) {
  Number number = told.number;
  const bool open = told.assessment.level == Level::cannot_tell && !number.widest.empty();
  if (number.low && number.high)
    sentence +=
        ' ' + bench.say("findings.stress.band", {{"low", megapascals(bench, *number.low)}, {"high", megapascals(bench, *number.high)}});
  if (lacks_band(bench, *told.form)) sentence += ' ' + bench.say("findings.stress.no_band");
  if (told.form->interval && !told.of->stress->settled) sentence += ' ' + bench.say("findings.stress.unsettled");
  if (open) {
    sentence += ' ' + bench.say("findings.stress.settle", {{"measurement", bench.say(measurement_of(number.widest))}});
    number.widest.clear();
  }
  Finding finding =
      judged(bench, Aspect::cooling, piece.here->piece, number, limit, Side::above, std::move(sentence), maker_says(bench, number));
  finding.level = told.assessment.level;
  finding.where = told.of->stress->section;
  if (open) finding.change = bench.say("findings.stress.measure");
  return finding;
}

/// How one number moves, in words.
struct MoveWords {
  std::string_view falls, rises, same;
};
constexpr MoveWords way_moves{"findings.stress.lever.way_falls", "findings.stress.lever.way_rises", "findings.stress.lever.way_same"};
constexpr MoveWords rest_moves{"findings.stress.lever.stays_falls", "findings.stress.lever.stays_rises",
                               "findings.stress.lever.stays_same"};

/// "the tension on the way falls from 21 to 14 MPa".
std::string move_of(const Bench& bench, const MoveWords& words, double before_Pa, double after_Pa) {
  const double before = before_Pa / MPa, after = after_Pa / MPa;
  if (std::abs(after - before) < hardly_MPa) return bench.say(words.same, {{"value", megapascals(bench, before)}});
  return bench.say(after < before ? words.falls : words.rises, {{"from", megapascals(bench, before)}, {"to", megapascals(bench, after)}});
}

std::string lever_in_words(const Bench& bench, const firing::StressLever& lever) {
  using What = firing::StressLever::What;
  const std::string to = bench.degrees(lever.to_C), rate = bench.number(bench.in_steps(60 * lever.rate_K_per_s)) + bench.unit_of_rates();
  const std::string how = lever.what == What::slower ? bench.say("findings.stress.lever.slower", {{"rate", rate}, {"to", to}})
                                                     : bench.say("findings.stress.lever.opened_lower", {{"to", to}});
  return bench.sentence("findings.stress.lever.does",
                        {{"how", how},
                         {"way", move_of(bench, way_moves, lever.transient_before_Pa, lever.transient_after_Pa)},
                         {"stays", move_of(bench, rest_moves, lever.residual_before_Pa, lever.residual_after_Pa)}});
}

void add_changes(const Bench& bench, Finding& finding, const StressedSection& of, std::string_view otherwise) {
  if (finding.level == Level::sound) return;
  const auto join = [&](const std::string& more) { finding.change += (finding.change.empty() ? "" : " ") + more; };
  if (finding.level != Level::cannot_tell) join(bench.say(otherwise));
  for (const firing::StressLever& lever : of.stress->levers) join(lever_in_words(bench, lever));
}

/// `way_apart`: what the way there was like is a finding of its own.
void judge_what_stays(Bench& bench, const PieceCase& piece, const Told& told, bool way_apart) {
  const firing::SectionStress& section = *told.of->stress;
  const physics::LayerCooling& glass = glass_of(section, *told.form);
  const bool pressed = told.number.nominal <= 0;
  const std::string_view key = pressed ? "findings.stress.pressed" : "findings.stress.stays";
  std::string sentence = bench.sentence(key, {{"piece", piece.here->piece},
                                              {"section", section.section},
                                              {"form", form_in_words(bench, *told.form)},
                                              {"stays", megapascals(bench, std::abs(told.number.nominal))}});
  if (!way_apart)
    sentence +=
        ' ' + bench.say("findings.stress.on_the_way", {{"way", megapascals(bench, std::max(0.0, glass.transient_highest_Pa / MPa))}});
  if (section.carried_in) sentence += ' ' + bench.say("findings.stress.carried_in");
  for (const std::string& remark : section.remarks) sentence += ' ' + trade::in_language(remark, bench.words);
  Finding finding = finding_of(bench, piece, told, "veneer_tension", std::move(sentence));
  add_changes(bench, finding, *told.of, "findings.stress.other_pair");
  bench.add(std::move(finding));
}

/// Not worth a sentence: what is sound, and what only its band reaches where what stays is graver already.
bool passed_over(const Told& told, Level level_of_rest) {
  if (!told.known()) return true;
  if (told.assessment.level == Level::sound) return !told.assessment.maker_breaks_too;
  return told.assessment.only_the_band && level_of_rest < told.assessment.level;
}

/// Where the highest on the way is what stays, that says it.
bool is_the_rest(const Told& way, const Told& rest) {
  return way.known() && rest.assessment.level <= way.assessment.level && way.number.nominal - rest.number.nominal < hardly_MPa &&
         !rest.assessment.maker_breaks_too;
}

void tell_the_way(Bench& bench, const PieceCase& piece, const Told& told) {
  Finding finding = finding_of(bench, piece, told, "transient_tension",
                               bench.sentence("findings.stress.way", {{"piece", piece.here->piece},
                                                                      {"section", told.of->stress->section},
                                                                      {"form", form_in_words(bench, *told.form)},
                                                                      {"way", megapascals(bench, told.number.nominal)}}));
  add_changes(bench, finding, *told.of, "findings.stress.gentler");
  bench.add(std::move(finding));
}

void judge_the_bond(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections, const Told& rest) {
  const Told told = gravest(bench, sections, across, "radial_tension");
  if (passed_over(told, rest.assessment.level)) return;
  Finding finding = finding_of(bench, piece, told, "radial_tension",
                               bench.sentence("findings.stress.bond", {{"piece", piece.here->piece},
                                                                       {"section", told.of->stress->section},
                                                                       {"form", form_in_words(bench, *told.form)},
                                                                       {"radial", megapascals(bench, told.number.nominal)}}));
  add_changes(bench, finding, *told.of, "findings.stress.nearer_pair");
  bench.add(std::move(finding));
}

bool has_glass(const Bench& bench, const trade::Section& section) {
  return std::any_of(section.layers.begin(), section.layers.end(), [&](const trade::Layer& layer) {
    const auto found = bench.rehearsal.request.materials.find(layer.material.value);
    return found != bench.rehearsal.request.materials.end() && firing::is_glass(found->second);
  });
}

/// Sections with a glass of which nothing was computed, with the reason; sections alike are told together.
void tell_not_computed(Bench& bench, const PieceCase& piece) {
  std::vector<std::pair<std::string, std::string>> reasons;  // reason, sections
  for (std::size_t s = 0; s < piece.here->stress.size(); ++s) {
    const firing::SectionStress& stress = piece.here->stress[s];
    if (stress.not_computed.empty() || !has_glass(bench, piece.piece->sections.at(s))) continue;
    const auto same = std::find_if(reasons.begin(), reasons.end(), [&](const auto& one) { return one.first == stress.not_computed; });
    if (same == reasons.end()) {
      reasons.emplace_back(stress.not_computed, stress.section);
    } else {
      same->second += ", " + stress.section;
    }
  }
  for (const auto& [why, sections] : reasons) {
    Finding finding =
        untold(Aspect::cooling, piece.here->piece,
               bench.sentence("findings.stress.not_computed",
                              {{"piece", piece.here->piece}, {"section", sections}, {"why", trade::in_language(why, bench.words)}}));
    finding.where = sections;
    finding.change = bench.say("findings.stress.follow_instruction");
    bench.add(std::move(finding));
  }
}

std::vector<StressedSection> stressed(const Bench& bench, const PieceCase& piece) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  std::vector<StressedSection> sections;
  for (std::size_t s = 0; s < piece.here->stress.size(); ++s) {
    const firing::SectionStress& stress = piece.here->stress[s];
    if (stress.forms.empty()) continue;
    StressedSection one;
    one.stress = &stress;
    one.heat = &piece.here->sections.at(s);
    one.section = &piece.piece->sections.at(s);
    if (piece.maker != nullptr && s < piece.maker->stress.size()) one.maker = &piece.maker->stress[s];
    one.layers = firing::stress_layers(*one.section, {request.materials, request.liquids, request.supports}, firing::Clocks::left);
    sections.push_back(std::move(one));
  }
  return sections;
}

}  // namespace

std::string label_of(const Bench& bench, const std::string& material) {
  const auto found = bench.rehearsal.request.materials.find(material);
  return found == bench.rehearsal.request.materials.end() || found->second.label.empty() ? material : found->second.label;
}

std::string StressedSection::glass(const Bench& bench) const {
  return label_of(bench, stress->materials.at(stress->glass));
}
std::string StressedSection::partner(const Bench& bench) const {
  return label_of(bench, stress->materials.at(layers.partner));
}

void judge_stress(Bench& bench, const PieceCase& piece) {
  if (piece.here->stress.empty()) return;
  tell_not_computed(bench, piece);
  const std::vector<StressedSection> sections = stressed(bench, piece);
  const Told told = gravest(bench, sections, stays, "veneer_tension");
  if (!told.known()) return;
  const Told way = gravest(bench, sections, on_the_way, "transient_tension");
  const bool way_apart = !is_the_rest(way, told) && !passed_over(way, told.assessment.level);
  judge_what_stays(bench, piece, told, way_apart);
  if (way_apart) tell_the_way(bench, piece, way);
  judge_the_bond(bench, piece, sections, told);
  judge_opening(bench, piece, sections);
  judge_pair(bench, piece, sections);
  judge_veneer(bench, piece, sections);
  judge_heating(bench, piece, sections);
}

}  // namespace heatwork::verdict
