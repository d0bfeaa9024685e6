// Zirconia: whether this furnace can sinter it at all, how dense and coarse it comes out, how far it shrinks; and a frame of it that is
// dense already, in a heat treatment or under its veneer.
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "physics/sintering.h"
#include "physics/zirconia_sintering.h"
#include "verdict/bench.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

using trade::Estimate;

const Estimate* own_of(const Bench& bench, const std::string& material, const char* property) {
  const auto found = bench.rehearsal.request.materials.find(material);
  const Estimate* own = found == bench.rehearsal.request.materials.end() ? nullptr : found->second.find(property);
  return own != nullptr && own->standing != trade::Standing::none_found ? own : nullptr;
}

/// A finding against a limit whose first is the material's own value, unless the lab has set its own; the second where `second` is given.
Finding by_material(const Bench& bench, const PieceCase* piece, const Number& number, std::string_view limit_name, Side side,
                    std::optional<double> first, std::optional<double> second, std::string sentence, const std::string& maker_says = {}) {
  trade::Limit limit = bench.limits.at(limit_name);
  if (!limit.of_lab && first) limit.first = *first;
  if (!limit.of_lab && second) limit.second = *second;
  trade::Limits limits;
  limits.by_name.emplace(std::string(limit_name), limit);
  const Bench with_own(bench.rehearsal, limits, bench.words, bench.units);
  return judged(with_own, Aspect::zirconia, piece != nullptr ? piece->here->piece : "", number, limit_name, side, std::move(sentence),
                maker_says);
}

std::optional<double> value_of(const Estimate* estimate) {
  return estimate != nullptr ? std::optional(estimate->value) : std::nullopt;
}

/// A number of one point, here and in the maker's firing, with bands.
template <class OfPoint>
Number of_point(const Bench& bench, const PieceCase& piece, std::size_t index, const OfPoint& value) {
  return bench.banded(
      Aspect::zirconia, piece, [&](const PieceCase& one) { return value(one.here->points[index]); },
      [&](const PieceCase& one) { return value(*one.maker_point(index)); }, 0);
}

/// The model's own error beside that of the inputs.
void widen(std::optional<double>& low, std::optional<double>& high, double nominal, double by) {
  if (low) low = nominal - std::hypot(nominal - *low, by);
  if (high) high = nominal + std::hypot(*high - nominal, by);
}

/// By how much each length shrinks, from the densities before and after and their ranges: "18 to 24".
std::string shrinkage(const Bench& bench, const firing::PointResult& point, const Number& density) {
  const Estimate* green = own_of(bench, point.material, "start_relative_density");
  const auto percent = [&](double before, double after) { return 100 * physics::linear_shrinkage(std::min(before, after), after); };
  const double least = percent(green->high, density.low.value_or(density.nominal));
  const double most = percent(green->low, density.high.value_or(density.nominal));
  const std::string low = bench.number(least, 1), high = bench.number(most, 1);
  return low == high ? low : bench.say("findings.degree.range", {{"least", low}, {"most", high}});
}

std::string rate_in_words(const Bench& bench, const firing::PointResult& point) {
  return bench.say(*point.curve == physics::CurveStanding::measured ? "findings.zirconia.as_measured" : "findings.zirconia.extrapolated");
}

Finding density(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  if (*point.curve == physics::CurveStanding::outside && point.sintered_density < physics::densest_measured) {
    Finding finding =
        untold(Aspect::zirconia, piece.here->piece,
               bench.sentence("findings.zirconia.outside", {{"piece", piece.here->piece}, {"section", piece.section_name(point)}}));
    finding.change = bench.say("findings.zirconia.heat_as_measured");
    return finding;
  }
  Number number = of_point(bench, piece, index, [](const firing::PointResult& one) { return one.sintered_density; });
  const bool final_stage = number.nominal > physics::densest_measured;
  const double error = final_stage ? 0 : physics::density_error(*point.curve);
  widen(number.low, number.high, number.nominal, error);
  if (number.maker) widen(number.maker_low, number.maker_high, *number.maker, error);
  if (number.high) number.high = std::min(1.0, *number.high);
  const std::string range = number.low && number.high ? bench.say("findings.degree.range", {{"least", bench.number(100 * *number.low, 1)},
                                                                                            {"most", bench.number(100 * *number.high, 1)}})
                                                      : bench.number(100 * number.nominal, 1);
  const std::string sentence = bench.sentence(
      "findings.zirconia.density", {{"piece", piece.here->piece},
                                    {"section", piece.section_name(point)},
                                    {"density", bench.number(100 * number.nominal, 1)},
                                    {"range", range},
                                    {"shrinkage", shrinkage(bench, point, number)},
                                    {"standing", final_stage ? bench.say("findings.zirconia.final_stage") : rate_in_words(bench, point)}});
  Finding finding = judged(bench, Aspect::zirconia, piece.here->piece, number, "sintered_density", Side::below, sentence,
                           maker != nullptr ? bench.number(100 * maker->sintered_density, 1) + " %" : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.zirconia.fire_more");
  finding.where = piece.section_name(point);
  return finding;
}

Finding grain(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  const Number number = of_point(bench, piece, index, [](const firing::PointResult& one) { return one.grain_um; });
  Finding finding = by_material(
      bench, &piece, number, "zirconia_grain", Side::above, value_of(own_of(bench, point.material, "overfired_crystal")), std::nullopt,
      bench.sentence("findings.zirconia.grain",
                     {{"piece", piece.here->piece}, {"section", piece.section_name(point)}, {"grain", bench.number(point.grain_um, 2)}}),
      maker != nullptr ? bench.number(maker->grain_um, 2) + " µm" : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.zirconia.fire_less");
  finding.where = piece.section_name(point);
  return finding;
}

Finding hottest(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  const Number number = of_point(bench, piece, index, [](const firing::PointResult& one) { return one.peak_C; });
  Finding finding = by_material(
      bench, &piece, number, "zirconia_temperature", Side::above, value_of(own_of(bench, point.material, "overfired_from")), std::nullopt,
      bench.sentence("findings.zirconia.hottest",
                     {{"piece", piece.here->piece}, {"section", piece.section_name(point)}, {"temperature", bench.degrees(point.peak_C)}}),
      maker != nullptr ? bench.degrees(maker->peak_C) : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.zirconia.fire_less");
  finding.where = piece.section_name(point);
  return finding;
}

template <class Worse>
std::optional<std::size_t> extreme(const PieceCase& piece, const Worse& worse) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < piece.here->points.size(); ++i) {
    if (!piece.here->points[i].curve || !piece.here->points[i].decides) continue;
    if (!found || worse(piece.here->points[i], piece.here->points[*found])) found = i;
  }
  return found;
}

using Point = firing::PointResult;

/// True where a layer of the piece is zirconia that is dense already.
bool has_dense_zirconia(const Bench& bench, const trade::Piece& piece) {
  for (const trade::Section& section : piece.sections)
    for (const trade::Layer& layer : section.layers)
      if (!layer.green && own_of(bench, layer.material.value, "sintering_from") != nullptr) return true;
  return false;
}

Number peak_of(const Bench& bench, const PieceCase& piece) {
  return bench.banded(
      Aspect::zirconia, piece, [](const PieceCase& one) { return one.here->peak_surface_C; },
      [](const PieceCase& one) { return one.maker->peak_surface_C; });
}

/// A frame ground after sintering: warm enough to turn back what grinding has done, not so hot that its grains grow. Counted by
/// temperature; its phases are not computed.
void judge_ground(Bench& bench, const PieceCase& piece) {
  const Number peak = peak_of(bench, piece);
  const std::string sentence =
      bench.sentence("findings.zirconia.ground", {{"piece", piece.here->piece},
                                                  {"temperature", bench.degrees(peak.nominal)},
                                                  {"from", bench.degrees(bench.limits.at("ground_zirconia").first)}});
  Finding finding = judged(bench, Aspect::zirconia, piece.here->piece, peak, "ground_zirconia", Side::below, sentence,
                           piece.maker != nullptr ? bench.degrees(piece.maker->peak_surface_C) : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.zirconia.as_the_sheet");
  bench.add(std::move(finding));
}

/// Dense zirconia in any firing: below this its grains rest. Said only where it is not so.
void judge_at_rest(Bench& bench, const PieceCase& piece) {
  const Number peak = peak_of(bench, piece);
  Finding finding =
      judged(bench, Aspect::zirconia, piece.here->piece, peak, "zirconia_at_rest", Side::above,
             bench.sentence("findings.zirconia.grows_again", {{"piece", piece.here->piece}, {"temperature", bench.degrees(peak.nominal)}}),
             piece.maker != nullptr ? bench.degrees(piece.maker->peak_surface_C) : "");
  if (finding.level == Level::sound) return;
  finding.change = bench.say("findings.zirconia.as_the_sheet");
  bench.add(std::move(finding));
}

}  // namespace

void judge_zirconia_furnace(Bench& bench) {
  const trade::ResolvedFiring& request = bench.rehearsal.request;
  for (const trade::Piece& piece : request.pieces) {
    const Estimate* needed = nullptr;
    for (const trade::Material* material : materials_fired(request, piece)) {
      const bool green = std::any_of(piece.sections.begin(), piece.sections.end(), [&](const trade::Section& section) {
        return std::any_of(section.layers.begin(), section.layers.end(),
                           [&](const trade::Layer& layer) { return layer.green && layer.material.value == material->name; });
      });
      const Estimate* own = green ? own_of(bench, material->name, "sintering_from") : nullptr;
      if (own != nullptr && (needed == nullptr || own->value > needed->value)) needed = own;
    }
    if (needed == nullptr) continue;
    const auto& display = request.furnace.display_error;
    const double maximum_C = request.furnace.maximum.value.celsius();
    const double within_K = display ? 2 * display->standard_uncertainty.value.si() : bench.limits.at("display_unchecked").first;
    Number number;
    number.nominal = maximum_C - (display ? display->error.value.si() : 0);
    number.low = number.nominal - within_K;
    number.high = number.nominal + within_K;
    const std::string sentence = bench.sentence("findings.zirconia.furnace", {{"furnace", request.furnace.name},
                                                                              {"piece", piece.name},
                                                                              {"maximum", bench.degrees(maximum_C)},
                                                                              {"low", bench.number(bench.in_degrees(*number.low))},
                                                                              {"high", bench.degrees(*number.high)},
                                                                              {"needed", bench.degrees(needed->value)},
                                                                              {"never", bench.degrees(needed->low)}});
    Finding finding = by_material(bench, nullptr, number, "zirconia_furnace", Side::below, needed->value, needed->low, sentence);
    if (finding.level == Level::sound) continue;
    if (finding.level == Level::fault_expected)
      finding.sentence =
          bench.sentence("findings.zirconia.cannot", {{"furnace", request.furnace.name}, {"piece", piece.name}}) + ' ' + sentence;
    finding.piece = piece.name;
    finding.change = bench.say("findings.zirconia.another_furnace", {{"needed", bench.degrees(needed->value)}});
    bench.add(std::move(finding));
  }
}

void judge_zirconia(Bench& bench, const PieceCase& piece) {
  const auto least = extreme(piece, [](const Point& a, const Point& b) { return a.sintered_density < b.sintered_density; });
  if (least) {
    const auto hot = extreme(piece, [](const Point& a, const Point& b) { return a.peak_C > b.peak_C; });
    const auto coarsest = extreme(piece, [](const Point& a, const Point& b) { return a.grain_um > b.grain_um; });
    bench.add(density(bench, piece, *least));
    for (Finding finding : {grain(bench, piece, *coarsest), hottest(bench, piece, *hot)})
      if (finding.level != Level::sound) bench.add(std::move(finding));
    return;
  }
  if (!has_dense_zirconia(bench, *piece.piece)) return;
  if (bench.rehearsal.request.firing.stage.value == trade::StageOfWork::heat_treatment) judge_ground(bench, piece);
  judge_at_rest(bench, piece);
}

}  // namespace heatwork::verdict
