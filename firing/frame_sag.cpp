#include "firing/frame_sag.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "firing/material_physics.h"
#include "physics/frame_sag.h"
#include "physics/layer.h"

namespace heatwork::firing {
namespace {

constexpr double gravity_m_per_s2 = 9.81;
/// Widths of wide permanent teeth from the midline outward, upper then lower jaw: a millimetre more than the mean. [mm] source:
/// field-memory
constexpr std::array<std::array<double, 8>, 2> width_mm{{{9.5, 7.5, 8.5, 8, 8, 11.5, 11, 10.5}, {6, 6.5, 8, 8, 8, 12, 11.5, 11}}};

/// Places along the jaw: -8 to -1 on its right, 1 to 8 on its left.
int place_of(int tooth) {
  const int quadrant = (tooth / 10 - 1) % 4;
  return quadrant == 0 || quadrant == 3 ? -(tooth % 10) : tooth % 10;
}

bool is_lower(int tooth) {
  return (tooth / 10 - 1) % 4 >= 2;
}

double width_at_mm(int place, bool lower) {
  return width_mm[lower ? 1 : 0][static_cast<std::size_t>(std::abs(place) - 1)];
}

struct Rod {
  double radius_m = 0;        ///< of the metal
  double weight_N_per_m = 0;  ///< with all it carries
};

/// A section that is solid metal inside, taken as round; nothing for others.
std::optional<Rod> rod_of(const trade::Section& section, const Stock& stock) {
  if (section.form.value == trade::SectionForm::shell || section.inside.value != trade::SectionInside::closed) return std::nullopt;
  double outer_m = section.form.value == trade::SectionForm::tube && section.inner_radius ? section.inner_radius->value.si() : 0;
  Rod rod;
  bool metal = true;
  for (const trade::Layer& layer : section.layers) {
    const trade::Material& material = material_of(layer, stock);
    metal = metal && material.kind == trade::MaterialKind::metal;
    const double inner_m = outer_m;
    outer_m += layer.thickness.value.si();
    if (metal) rod.radius_m = outer_m;
    rod.weight_N_per_m += std::numbers::pi * (outer_m * outer_m - inner_m * inner_m) * property(material, "density") * gravity_m_per_s2;
  }
  return rod.radius_m > 0 ? std::optional(rod) : std::nullopt;
}

/// A metal with each value at the end of its range that creeps faster; nothing where one is not known.
std::optional<physics::CastAlloy> fastest(const trade::Material& metal) {
  const trade::Estimate* solidus = known_property(metal, "solidus");
  const trade::Estimate* diffusion = known_property(metal, "self_diffusion_at_solidus");
  const trade::Estimate* grain = known_property(metal, "grain_diameter");
  if (solidus == nullptr || diffusion == nullptr || grain == nullptr) return std::nullopt;
  return physics::CastAlloy{solidus->low + physics::zero_celsius_K, diffusion->high * 1e-12, grain->low * 1e-6};
}

/// The solid metal of a piece as one rod: as thin as the thinnest, as heavy as the heaviest, of the metal that melts first, at each moment
/// as hot as the hottest. Nothing where a metal's values are not known or none is solid.
struct Frame {
  Rod rod;
  physics::CastAlloy alloy;
  std::vector<double> hottest_K;
};

std::optional<Frame> frame_of(const trade::Piece& piece, const Stock& stock, std::span<const SectionResult> sections) {
  std::optional<Frame> frame;
  for (std::size_t s = 0; s < piece.sections.size(); ++s) {
    const std::optional<Rod> rod = rod_of(piece.sections[s], stock);
    if (!rod) continue;
    const std::optional<physics::CastAlloy> alloy = fastest(material_of(piece.sections[s].layers.front(), stock));
    if (!alloy) return std::nullopt;
    if (!frame) frame = Frame{*rod, *alloy, std::vector<double>(sections[s].surface_C.size(), 300)};
    frame->rod.radius_m = std::min(frame->rod.radius_m, rod->radius_m);
    frame->rod.weight_N_per_m = std::max(frame->rod.weight_N_per_m, rod->weight_N_per_m);
    if (alloy->solidus_K < frame->alloy.solidus_K) frame->alloy = *alloy;
    for (std::size_t t = 0; t < frame->hottest_K.size(); ++t)
      frame->hottest_K[t] = std::max(frame->hottest_K[t], sections[s].surface_C[t] + physics::zero_celsius_K);
  }
  return frame;
}

bool of_one_jaw(const std::vector<int>& teeth) {
  return std::ranges::all_of(teeth, [&](int tooth) { return is_lower(tooth) == is_lower(teeth.front()); });
}

}  // namespace

double span_mm(const std::vector<int>& teeth) {
  const auto [first, last] = std::ranges::minmax(teeth, {}, place_of);
  const int from = place_of(first), to = place_of(last);
  const bool lower = is_lower(teeth.front());
  double all_mm = 0;
  for (int place = from; place <= to; ++place)
    if (place != 0) all_mm += width_at_mm(place, lower);
  return all_mm - (width_at_mm(from, lower) + width_at_mm(to, lower)) / 2;
}

std::optional<FrameSag> frame_sag(const trade::Piece& piece, const Stock& stock, std::span<const double> times_s,
                                  std::span<const SectionResult> sections) {
  if (piece.teeth.size() < span_units || !of_one_jaw(piece.teeth)) return std::nullopt;
  const std::optional<Frame> frame = frame_of(piece, stock, sections);
  if (!frame) return std::nullopt;
  FrameSag sag{span_mm(piece.teeth), frame->rod.radius_m * 1000, std::nullopt};
  if (std::ranges::max(frame->hottest_K) > frame->alloy.solidus_K) return sag;  // it begins to melt: nothing bounds it
  double creep_per_Pa = 0, before = 0;
  for (std::size_t t = 0; t < times_s.size(); ++t) {
    const double rate = physics::diffusional_creep_per_Pa_s(frame->hottest_K[t], frame->alloy);
    if (t > 0) creep_per_Pa += (times_s[t] - times_s[t - 1]) * std::max(rate, before);
    before = rate;
  }
  const physics::Span span{sag.span_mm / 1000, frame->rod.radius_m, frame->rod.weight_N_per_m};
  sag.most_um = 1e6 * physics::span_sag_m(span, creep_per_Pa);
  return sag;
}

}  // namespace heatwork::firing
