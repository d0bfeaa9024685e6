// A rehearsal made up for the tests of the reports: smooth curves of the right shape, no physics in them.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "firing/rehearsal.h"
#include "trade/limits.h"
#include "trade/words.h"
#include "verdict/finding.h"

namespace heatwork::report::made_up {

inline const trade::Words& words(trade::Language language = trade::Language::english) {
  return trade::words_of(language);
}

struct Clock {
  double closed_s = 360, heat_from_s = 437, top_s = 967, hold_ends_s = 1034, open_s = 1190, end_s = 1290;
  double entry_C = 437, top_C = 923, vacuum_from_C = 571;
  double error_K = 12, level_Pa = 4700, release_after_top_s = 8;
  double vacuum_s() const { return heat_from_s + (vacuum_from_C - entry_C) / (top_C - entry_C) * (top_s - heat_from_s); }
  double release_s() const { return top_s + release_after_top_s; }
};

inline double smooth(double value, double from, double to) {
  const double u = std::clamp((value - from) / (to - from), 0.0, 1.0);
  return u * u * (3 - 2 * u);
}

inline double asked_at(const Clock& clock, double t) {
  if (t < clock.heat_from_s) return clock.entry_C;
  if (t < clock.top_s) return clock.entry_C + (clock.top_C - clock.entry_C) * (t - clock.heat_from_s) / (clock.top_s - clock.heat_from_s);
  if (t < clock.hold_ends_s) return clock.top_C;
  return t < clock.open_s ? clock.top_C * std::exp(-(t - clock.hold_ends_s) / 600)
                          : clock.top_C * std::exp(-(clock.open_s - clock.hold_ends_s) / 600 - (t - clock.open_s) / 170);
}

inline firing::ChamberHistory chamber(const Clock& clock) {
  firing::ChamberHistory history;
  for (double t = 0; t <= clock.end_s; t += 5) {
    const double asked = asked_at(clock, t);
    const double lag = t > clock.heat_from_s && t < clock.top_s
                           ? 9.0 * smooth(t, clock.heat_from_s, clock.heat_from_s + 60) * (1 - smooth(t, clock.top_s - 40, clock.top_s))
                           : 0;
    const double display = asked - lag + (t > clock.top_s && t < clock.top_s + 30 ? 3 * std::sin((t - clock.top_s) / 30 * 3.14159) : 0);
    double pressure = 101325;
    if (t > clock.vacuum_s()) pressure = clock.level_Pa + (101325 - clock.level_Pa) * std::exp(-(t - clock.vacuum_s()) / 14);
    if (t > clock.release_s()) pressure = 101325 - (101325 - clock.level_Pa) * std::exp(-(t - clock.release_s()) / 4);
    history.time_s.push_back(t);
    history.asked_C.push_back(asked);
    history.display_C.push_back(display);
    history.chamber_C.push_back(display - clock.error_K);
    history.pressure_Pa.push_back(pressure);
    history.opening.push_back(t < clock.closed_s ? 1 : 0);
    history.phase.push_back(firing::Phase::heating);
    history.lowest_pressure_Pa = std::min(history.lowest_pressure_Pa, pressure);
  }
  return history;
}

/// Follows the chamber with a lag; water, pores and edges follow from temperature by made-up curves.
inline firing::PieceResult piece(const std::string& name, const firing::ChamberHistory& chamber, double lag_s, double water_g,
                                 double dry_at_s, double seals_at_C) {
  firing::PieceResult piece;
  piece.piece = name;
  firing::SectionResult section;
  firing::PointResult point;
  section.name = "crown wall";
  point.material = "made-up powder";
  double surface = 28, core = 26, rounding = 0;
  for (std::size_t i = 0; i < chamber.time_s.size(); ++i) {
    const double t = chamber.time_s[i];
    const double seen = chamber.opening[i] > 0.5 ? 120 + t * 0.35 : chamber.chamber_C[i];
    surface += (seen - surface) * (1 - std::exp(-5.0 / lag_s));
    core += (surface - core) * (1 - std::exp(-5.0 / (0.25 * lag_s)));
    const double sealed = smooth(core, seals_at_C - 34, seals_at_C + 30);
    point.sealed_trace.push_back(std::max(sealed, point.sealed_trace.empty() ? 0.0 : point.sealed_trace.back()));
    rounding += 5 * 1.1e-2 * std::exp((core - 830) / 26.0);
    point.rounding_trace_um.push_back(rounding);
    point.porosity_trace_percent.push_back(
        std::max(0.63, 44.0 * (1 - smooth(core, 640, seals_at_C)) + 6 * (1 - smooth(core, seals_at_C, seals_at_C + 55))));
    if (i > 0) point.porosity_trace_percent.back() = std::min(point.porosity_trace_percent.back(), point.porosity_trace_percent[i - 1]);
    section.surface_C.push_back(surface);
    section.core_C.push_back(core);
    section.water_g.push_back(water_g * std::clamp(1 - std::pow(t / dry_at_s, 1.4), 0.0, 1.0));
  }
  section.water_start_g = water_g;
  section.dry_s = water_g > 0 ? dry_at_s : -1;
  point.heat_work = point.deciding = rounding / 7.5;
  point.rounding_um = rounding;
  point.porosity_percent = point.porosity_trace_percent.back();
  point.relative_density = 1 - point.porosity_percent / 100;
  piece.peak_display_C = *std::max_element(chamber.display_C.begin(), chamber.display_C.end());
  piece.peak_chamber_C = *std::max_element(chamber.chamber_C.begin(), chamber.chamber_C.end());
  piece.peak_surface_C = *std::max_element(section.surface_C.begin(), section.surface_C.end());
  piece.peak_core_C = *std::max_element(section.core_C.begin(), section.core_C.end());
  const auto crossing = [&](double share) {
    for (std::size_t i = 0; i < point.sealed_trace.size(); ++i) {
      if (point.sealed_trace[i] >= share) return chamber.time_s[i];
    }
    return -1.0;
  };
  point.half_sealed_s = crossing(0.5);
  point.sealed_s = crossing(0.98);
  point.half_sealed_C = seals_at_C;
  for (std::size_t i = 0; i < chamber.time_s.size(); ++i) {
    if (chamber.time_s[i] <= point.half_sealed_s) point.pressure_at_sealing_Pa = chamber.pressure_Pa[i];
  }
  piece.sections.push_back(std::move(section));
  piece.points.push_back(std::move(point));
  piece.deciding_point = 0;
  return piece;
}

inline void add_moments(firing::Rehearsal& rehearsal, const Clock& clock) {
  using Kind = firing::MomentKind;
  auto& moments = rehearsal.moments;
  const auto add = [&](Kind kind, const std::string& who, double at_s) {
    if (at_s >= 0) moments.push_back({kind, who, at_s, asked_at(clock, at_s)});
  };
  add(Kind::closed, "", clock.closed_s);
  if (rehearsal.request.program.vacuum) {
    add(Kind::vacuum_started, "", clock.vacuum_s());
    add(Kind::vacuum_reached, "", clock.vacuum_s() + 62);
    add(Kind::released, "", clock.release_s());
  }
  add(Kind::top, "", clock.top_s);
  add(Kind::hold_ends, "", clock.hold_ends_s);
  add(Kind::open, "", clock.open_s);
  for (const auto& piece : rehearsal.firing.pieces) {
    add(Kind::dry, piece.piece, piece.sections.front().dry_s);
    add(Kind::half_sealed, piece.piece, piece.points.front().half_sealed_s);
    add(Kind::sealed, piece.piece, piece.points.front().sealed_s);
  }
  std::stable_sort(moments.begin(), moments.end(), [](const auto& a, const auto& b) { return a.at_s < b.at_s; });
}

/// A crown and a bridge in a furnace that reads 12 K high.
inline firing::Rehearsal rehearsal(const Clock& clock = {}, bool vacuum = true) {
  firing::Rehearsal made;
  made.request.firing.name = "morning";
  made.request.firing.label = "Dentine firing, upper left (made up)";
  made.request.program = {};
  made.request.program.name = "dentine-made-up";
  made.request.program.label = "dentine, made up";
  if (vacuum) {
    made.request.program.vacuum.emplace();
    made.request.program.vacuum->level.value = quantity::Pressure::si(clock.level_Pa);
  }
  made.request.furnace.name = "corner";
  made.request.tray.name = "small round";
  made.request.instruction.emplace();
  made.request.instruction->name = "made-up sheet";
  made.request.pieces.resize(2);
  made.request.pieces[0].name = "crown-16";
  made.request.pieces[0].label = "crown on a made-up core";
  made.request.pieces[1].name = "bridge-24-26";
  made.request.pieces[1].label = "three-unit bridge";
  made.request.came_from = {{"furnace corner", "corner.toml"}, {"program dentine-made-up", "shipped"}};
  made.firing.chamber = chamber(clock);
  made.firing.time_s = made.firing.chamber.time_s;
  made.firing.pieces.push_back(piece("crown-16", made.firing.chamber, 16, 0.11, 286, 792));
  made.firing.pieces.push_back(piece("bridge-24-26", made.firing.chamber, 27, 0.42, 402, 792));
  made.firing.pieces[1].sections[0].water_at_close_percent = 6.4;
  made.firing.pieces[1].points[0].porosity_percent = 0.81;
  made.compared = {{firing::DecidingQuantity::heat_work, -12.4, -41.0, false, false, false, 67},
                   {firing::DecidingQuantity::heat_work, -19.1, {}, false, true, false, 67}};
  made.reference_tray = "small round";
  made.assumptions = {"The maker's program ran in this furnace with a true display, nominal mains and a tight chamber."};
  made.taken_from_shape = {"bridge-24-26, crown wall: area 214 mm², taken from its shape."};
  made.model_version = firing::model_version;
  made.inputs_hash = "3fa9c7120be85d6614";
  add_moments(made, clock);
  return made;
}

/// Stress of a crown's wall as a closed shell and a plate beside it: rises to the highest on the way as it cools, then falls to what stays.
inline firing::SectionStress section_stress(const Clock& clock, double way_MPa, double stays_MPa) {
  firing::SectionStress made;
  made.section = "crown wall";
  made.materials = {"made-up core", "made-up powder"};
  made.glass = 1;
  made.started_C = clock.top_C - 40;
  made.glass_transition_C = 561;
  made.opened_at_C = 612;
  made.cooling_K_per_s = 0.71;
  made.mismatch_per_K = 0.7e-6;
  for (double t = clock.hold_ends_s; t <= 1.6 * clock.end_s; t += 10) made.time_s.push_back(t);
  const auto form = [&](physics::StressForm what, double share) {
    firing::FormStress one;
    one.form = what;
    one.inner_radius_m = what == physics::StressForm::sphere ? 4e-3 : 0;
    one.error_Pa = 0.04e6;
    physics::LayerCooling core, glass;
    core.inner_hoop_Pa = core.highest_hoop_Pa = -21e6 * share;
    core.outer_hoop_Pa = core.lowest_hoop_Pa = -26e6 * share;
    core.transient_highest_Pa = 3e6;
    glass.inner_hoop_Pa = glass.highest_hoop_Pa = stays_MPa * 1e6 * share;
    glass.outer_hoop_Pa = glass.lowest_hoop_Pa = -4e6 * share;
    glass.radial_at_inner_Pa = 1.3e6 * share;
    glass.transient_highest_Pa = way_MPa * 1e6 * share;
    one.layers = {core, glass};
    for (const auto& layer : one.layers) {
      auto& trace = one.highest_trace_Pa.emplace_back();
      for (const double t : made.time_s) {
        const double cold = smooth(t, clock.open_s, 1.3 * clock.end_s), on = smooth(t, clock.hold_ends_s, clock.open_s + 30);
        trace.push_back(on * layer.transient_highest_Pa + cold * (layer.highest_hoop_Pa - layer.transient_highest_Pa));
      }
    }
    made.forms.push_back(std::move(one));
  };
  form(physics::StressForm::sphere, 1);
  form(physics::StressForm::plate_flat, 0.6);
  made.forms[1].remark_only = true;
  return made;
}

/// The rehearsal with the stress of both pieces: one within what limits ask, one with a band beyond them; of one section it is not known.
inline void add_stress(firing::Rehearsal& rehearsal, const Clock& clock = {}) {
  rehearsal.firing.pieces.at(0).stress = {section_stress(clock, 18.3, 6.4)};
  firing::SectionStress wide = section_stress(clock, 27.8, 12.1);
  wide.set_size = 128;
  wide.settled = true;
  physics::StressIntervals& bounds = wide.forms[0].interval.emplace();
  bounds.layers.resize(2);
  for (std::size_t layer = 0; layer < 2; ++layer)
    for (std::size_t i = 0; i < physics::stress_figures; ++i) {
      const double middle_Pa = wide.forms[0].layers[layer].*physics::layer_stresses[i];
      bounds.layers[layer][i] = {middle_Pa - 9e6, middle_Pa, middle_Pa + 11e6};
    }
  wide.levers.push_back({firing::StressLever::What::slower, 520, 0.3, 27.8e6, 16.2e6, 12.1e6, 11.9e6});
  firing::SectionStress unknown;
  unknown.section = "pontic";
  unknown.not_computed = "made-up powder has no liquid expansion ratio, so no stress of the pontic is computed.";
  rehearsal.firing.pieces.at(1).stress = {std::move(wide), std::move(unknown)};
}

inline verdict::Verdict verdict() {
  verdict::Verdict made;
  verdict::Finding first;
  first.aspect = verdict::Aspect::degree_of_firing;
  first.level = verdict::Level::borderline;
  first.piece = "bridge-24-26";
  first.sentence = "bridge-24-26 is fired like 19 K less than under the maker's own program in a true furnace.";
  first.number = -19.1;
  first.unit = "K";
  first.limit = 10;
  first.limit_from = verdict::LimitFrom::heatwork;
  first.change = "Check the display, then ask for 19 K more.";
  verdict::Finding second;
  second.aspect = verdict::Aspect::water;
  second.level = verdict::Level::borderline;
  second.piece = "bridge-24-26";
  second.sentence = "As the chamber shuts, 6.4 % of the water is still in the bridge.";
  second.number = 6.4;
  second.unit = "%";
  second.limit = 5;
  second.limit_from = verdict::LimitFrom::heatwork;
  second.change = "Dry it 1 min longer.";
  verdict::Finding third;
  third.aspect = verdict::Aspect::vacuum;
  third.level = verdict::Level::sound;
  third.sentence = "The vacuum stands before pores seal.";
  made.findings = {first, second, third};
  return made;
}

inline trade::Limits limits() {
  trade::Limits made;
  made.by_name["water_at_vacuum"] = {1, 5.0, "%", "water at vacuum start", trade::Standing::assumed, "made up", false};
  made.by_name["porosity"] = {1, 3.0, "%", "porosity", trade::Standing::assumed, "made up", false};
  made.by_name["rounding_least"] = {50, {}, "µm", "rounding", trade::Standing::assumed, "made up", false};
  made.by_name["rounding_most"] = {200, 400.0, "µm", "rounding", trade::Standing::assumed, "made up", false};
  made.by_name["transient_tension"] = {25, {}, "MPa", "tension on the way", trade::Standing::assumed, "made up", false};
  made.by_name["veneer_tension"] = {10, 20.0, "MPa", "tension that stays", trade::Standing::assumed, "made up", false};
  return made;
}

}  // namespace heatwork::report::made_up
