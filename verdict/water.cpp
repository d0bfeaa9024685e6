// Water, bursting and organics: what must have left the build-up before the chamber shuts and the pump starts.
#include <algorithm>
#include <cmath>
#include <optional>

#include "verdict/bench.h"
#include "verdict/keyed.h"

namespace heatwork::verdict {
namespace {

/// The wet section with the greatest of a number; absent where nothing is wet with plain water.
template <class Value>
std::optional<std::size_t> worst_wet(const PieceCase& piece, const Value& value) {
  std::optional<std::size_t> worst;
  for (std::size_t i = 0; i < piece.here->sections.size(); ++i) {
    const firing::SectionResult& section = piece.here->sections[i];
    if (!(section.water_start_g > 0) || section.not_water) continue;
    if (!worst || value(section) > value(piece.here->sections[*worst])) worst = i;
  }
  return worst;
}

/// A number of one section, here and in the maker's firing, with bands.
template <class Value>
Number of_section(const Bench& bench, Aspect aspect, const PieceCase& piece, std::size_t section, const Value& value) {
  return bench.banded(
      aspect, piece, [&](const PieceCase& one) { return value(one.here->sections[section]); },
      [&](const PieceCase& one) { return value(*one.maker_section(section)); }, 0);
}

/// Name of the first liquid of the piece that answers a question with yes; empty: none.
template <class Question>
std::string first_liquid(const Bench& bench, const PieceCase& piece, const Question& is_it) {
  for (const trade::Section& section : piece.piece->sections) {
    for (const trade::Layer& layer : section.layers) {
      if (!layer.liquid) continue;
      const auto found = bench.rehearsal.request.liquids.find(layer.liquid->value);
      if (found != bench.rehearsal.request.liquids.end() && is_it(found->second)) return found->second.name;
    }
  }
  return {};
}

std::string other_liquid(const Bench& bench, const PieceCase& piece) {
  return first_liquid(bench, piece, [](const trade::Liquid& liquid) { return !liquid.water_only; });
}

std::string organic_liquid(const Bench& bench, const PieceCase& piece) {
  return first_liquid(bench, piece, [](const trade::Liquid& liquid) { return liquid.organic; });
}

bool holds_other_liquid(const PieceCase& piece) {
  return std::any_of(piece.here->sections.begin(), piece.here->sections.end(),
                     [](const firing::SectionResult& section) { return section.not_water; });
}

/// As long as the maker's program dries, where this one is cut; else how much longer so that the section is dry in time, in whole 10 s.
void advise_drying(Finding& finding, const Bench& bench, const firing::SectionResult& section, double wanted_s) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  const auto dry_for = [&](double time_s) { finding.advised = {{key_of("findings.part.drying", 0), bench.time(time_s)}}; };
  const double maker_s = request.instruction_program ? request.instruction_program->drying_time.value.si() : 0;
  const double now_s = request.program.drying_time.value.si();
  if (maker_s > now_s) {
    finding.change = bench.say("findings.water.key_in_drying", {{"to", bench.time(maker_s)}});
    return dry_for(maker_s);
  }
  if (section.dry_s < 0) {
    finding.change = bench.say("findings.water.dry_much_longer");
    return;
  }
  const double longer_s = 10 * std::ceil(std::max(10.0, section.dry_s - wanted_s) / 10);
  finding.change = bench.say("findings.water.dry_longer", {{"longer", bench.time(longer_s)}});
  dry_for(now_s + longer_s);
}

void water_at_vacuum(Bench& bench, const PieceCase& piece, double vacuum_s) {
  const auto left = [](const firing::SectionResult& section) { return section.water_at_vacuum_percent; };
  const auto worst = worst_wet(piece, left);
  if (!worst) return;
  const firing::SectionResult& section = piece.here->sections[*worst];
  const firing::SectionResult* maker = piece.maker_section(*worst);
  const Number number = of_section(bench, Aspect::water, piece, *worst, left);
  const bool dry_before = section.dry_s >= 0 && section.dry_s < vacuum_s;
  const std::string sentence =
      dry_before ? bench.sentence("findings.water.dry_before", {{"piece", piece.here->piece},
                                                                {"section", section.name},
                                                                {"before", bench.time(vacuum_s - section.dry_s)},
                                                                {"closing", bench.rounded(section.water_at_close_percent)}})
                 : bench.sentence("findings.water.left_at_vacuum", {{"piece", piece.here->piece},
                                                                    {"section", section.name},
                                                                    {"left", bench.rounded(left(section))},
                                                                    {"closing", bench.rounded(section.water_at_close_percent)}});
  Finding finding = judged(bench, Aspect::water, piece.here->piece, number, "water_at_vacuum", Side::above, sentence,
                           maker != nullptr ? bench.rounded(left(*maker)) + " %" : "");
  if (finding.level != Level::sound) advise_drying(finding, bench, section, vacuum_s);
  finding.where = section.name;
  bench.add(std::move(finding));
}

void water_at_closing(Bench& bench, const PieceCase& piece) {
  const auto left = [](const firing::SectionResult& section) { return section.water_at_close_percent; };
  const auto worst = worst_wet(piece, left);
  if (!worst) return;
  const firing::SectionResult& section = piece.here->sections[*worst];
  const firing::SectionResult* maker = piece.maker_section(*worst);
  const firing::ChamberMoment* closed = bench.rehearsal.firing.chamber.find(firing::ChamberEvent::closed);
  const Number number = of_section(bench, Aspect::water, piece, *worst, left);
  Finding finding =
      judged(bench, Aspect::water, piece.here->piece, number, "water_at_closing", Side::above,
             bench.sentence("findings.water.left_at_closing",
                            {{"piece", piece.here->piece}, {"section", section.name}, {"left", bench.rounded(left(section))}}),
             maker != nullptr ? bench.rounded(left(*maker)) + " %" : "");
  if (finding.level != Level::sound) advise_drying(finding, bench, section, closed == nullptr ? 0 : closed->time_s);
  finding.where = section.name;
  bench.add(std::move(finding));
}

}  // namespace

void judge_water(Bench& bench, const PieceCase& piece) {
  if (holds_other_liquid(piece)) {
    Finding& finding = bench.add(
        untold(Aspect::water, piece.here->piece,
               bench.sentence("findings.water.other_liquid", {{"piece", piece.here->piece}, {"liquid", other_liquid(bench, piece)}})));
    finding.change = bench.say("findings.water.follow_instruction");
    return;
  }
  const firing::ChamberMoment* vacuum = bench.rehearsal.firing.chamber.find(firing::ChamberEvent::vacuum_started);
  if (vacuum != nullptr) {
    water_at_vacuum(bench, piece, vacuum->time_s);
  } else {
    water_at_closing(bench, piece);
  }
}

void judge_burst(Bench& bench, const PieceCase& piece) {
  const auto index = [](const firing::SectionResult& section) { return section.burst_index; };
  const auto worst = worst_wet(piece, index);
  if (!worst || holds_other_liquid(piece)) return;
  const firing::SectionResult& section = piece.here->sections[*worst];
  const firing::SectionResult* maker = piece.maker_section(*worst);
  const Number number = of_section(bench, Aspect::burst, piece, *worst, index);
  Finding finding = judged(bench, Aspect::burst, piece.here->piece, number, "burst_index", Side::above,
                           bench.sentence("findings.burst.index", {{"piece", piece.here->piece},
                                                                   {"section", section.name},
                                                                   {"index", bench.number(index(section), 2)},
                                                                   {"at", bench.time(section.burst_at_s)}}),
                           maker != nullptr ? bench.number(index(*maker), 2) : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.burst.gentler");
  finding.where = section.name;
  bench.add(std::move(finding));
}

namespace {

/// Minutes that the coolest surface of the piece is above a temperature before the vacuum starts.
double minutes_in_air(const std::vector<double>& times_s, const firing::PieceResult& piece, double above_C, double vacuum_s) {
  double shortest_s = vacuum_s;
  for (const firing::SectionResult& section : piece.sections) {
    double in_air_s = 0;
    for (std::size_t i = 1; i < times_s.size() && times_s[i] <= vacuum_s; ++i) {
      if (0.5 * (section.surface_C[i] + section.surface_C[i - 1]) > above_C) in_air_s += times_s[i] - times_s[i - 1];
    }
    shortest_s = std::min(shortest_s, in_air_s);
  }
  return shortest_s / 60;
}

/// The same until the vacuum starts, or to the end where it never does.
double minutes_before_vacuum(const firing::FiringResult& firing, const firing::PieceResult& piece, double above_C) {
  const firing::ChamberMoment* started = firing.chamber.find(firing::ChamberEvent::vacuum_started);
  return minutes_in_air(firing.time_s, piece, above_C, started != nullptr ? started->time_s : firing.time_s.back());
}

}  // namespace

void judge_organics(Bench& bench, const PieceCase& piece) {
  const std::string liquid = organic_liquid(bench, piece);
  const firing::ChamberMoment* vacuum = bench.rehearsal.firing.chamber.find(firing::ChamberEvent::vacuum_started);
  if (liquid.empty() || vacuum == nullptr) return;
  constexpr double burn_off_C = 350;  // the rule of thumb's temperature; its minutes are a limit
  const auto minutes = [&](const PieceCase& one) { return minutes_before_vacuum(*one.firing, *one.here, burn_off_C); };
  const auto of_maker = [&](const PieceCase& one) { return minutes_before_vacuum(*one.maker_firing, *one.maker, burn_off_C); };
  const Number number = bench.banded(Aspect::organics, piece, minutes, of_maker, 0);
  const std::string maker_says = number.maker ? bench.number(*number.maker, 1) + " min" : "";
  Finding finding = judged(bench, Aspect::organics, piece.here->piece, number, "organics_minutes", Side::below,
                           bench.sentence("findings.organics.burn_off", {{"piece", piece.here->piece},
                                                                         {"liquid", liquid},
                                                                         {"minutes", bench.number(number.nominal, 1)},
                                                                         {"above", bench.degrees(burn_off_C)}}),
                           maker_says);
  if (finding.level != Level::sound) finding.change = bench.say("findings.organics.longer_in_air");
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
