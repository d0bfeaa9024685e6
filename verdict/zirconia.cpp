// Zirconia: whether this furnace can sinter it at all, how dense and coarse it comes out, how far it shrinks; and a frame of it that is
// dense already, in a heat treatment or under its veneer.
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "physics/sintering.h"
#include "physics/zirconia_sintering.h"
#include "verdict/bench.h"
#include "verdict/point.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

using trade::Estimate;

/// Zirconia before sintering, for which the firing is.
bool sinters(const Point& point) {
  return point.curve && point.decides;
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
  Number number = number_of_point(bench, Aspect::zirconia, piece, index, [](const Point& one) { return one.sintered_density; });
  const bool final_stage = number.nominal > physics::densest_measured;
  const double error = final_stage ? 0 : physics::density_error(*point.curve);
  widen(number.low, number.high, number.nominal, error, error);
  if (number.maker) widen(number.maker_low, number.maker_high, *number.maker, error, error);
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
  return at_point(piece, index,
                  judged(bench, Aspect::zirconia, piece.here->piece, number, "sintered_density", Side::below, sentence,
                         maker != nullptr ? bench.number(100 * maker->sintered_density, 1) + " %" : ""),
                  bench.say("findings.zirconia.fire_more"));
}

constexpr TooMuch too_coarse{Aspect::zirconia,
                             "zirconia_grain",
                             "overfired_crystal",
                             [](const Point& point) { return point.grain_um; },
                             "findings.zirconia.grain",
                             "grain",
                             [](const Bench& bench, double um) { return bench.number(um, 2); },
                             " µm",
                             "findings.zirconia.fire_less"};
constexpr TooMuch too_hot{Aspect::zirconia,
                          "zirconia_temperature",
                          "overfired_from",
                          [](const Point& point) { return point.peak_C; },
                          "findings.zirconia.hottest",
                          "temperature",
                          [](const Bench& bench, double C) { return bench.degrees(C); },
                          "",
                          "findings.zirconia.fire_less"};

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
    Finding finding =
        judged_by_own(bench, Aspect::zirconia, piece.name, number, {"zirconia_furnace", needed->value, needed->low}, Side::below, sentence);
    if (finding.level == Level::sound) continue;
    if (finding.level == Level::fault_expected)
      finding.sentence =
          bench.sentence("findings.zirconia.cannot", {{"furnace", request.furnace.name}, {"piece", piece.name}}) + ' ' + sentence;
    finding.change = bench.say("findings.zirconia.another_furnace", {{"needed", bench.degrees(needed->value)}});
    bench.add(std::move(finding));
  }
}

void judge_zirconia(Bench& bench, const PieceCase& piece) {
  const auto least = first_point(piece, sinters, [](const Point& a, const Point& b) { return a.sintered_density < b.sintered_density; });
  if (least) {
    bench.add(density(bench, piece, *least));
    for (const TooMuch& of : {too_coarse, too_hot}) {
      Finding finding = too_much(bench, piece, sinters, of);
      if (finding.level != Level::sound) bench.add(std::move(finding));
    }
    return;
  }
  if (!has_dense_zirconia(bench, *piece.piece)) return;
  if (bench.rehearsal.request.firing.stage.value == trade::StageOfWork::heat_treatment) judge_ground(bench, piece);
  judge_at_rest(bench, piece);
}

}  // namespace heatwork::verdict
