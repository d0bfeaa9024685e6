#include "firing/stress_of_firing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "firing/column.h"
#include "firing/material_physics.h"
#include "firing/side_by_side.h"
#include "physics/cooling_error.h"
#include "physics/cooling_profile.h"
#include "physics/stress_carry.h"

namespace heatwork::firing {
namespace {

/// By how much a glass must be hotter than its transition to have lost all stress before it cools. [K] source: field-memory
constexpr double liquid_above_K = 80;
/// Still air of a room around a hot piece, beside its radiation; with an emissivity of 0.9 the two give 61 W/(m2 K) at 600 °C, as the
/// published value of cooling on the bench. Standing: assumed. [W/(m2 K)]
constexpr double room_air_W_per_m2K = 10;
/// In a hollow that is open below, where little air moves. Standing: assumed. [W/(m2 K)]
constexpr double hollow_air_W_per_m2K = 5;
constexpr physics::StressAccuracy shown{1.0, 9, 5};
constexpr double nearest_s = 1e-6;

/// Nodes of a layer, from its inner to its outer face.
struct Nodes {
  std::size_t first = 0, last = 0;
};

Nodes nodes_of(const physics::SectionHistory& history, std::size_t layer) {
  const auto first_of = [&](std::size_t one) {
    const auto found = std::lower_bound(history.layer_of_node.begin(), history.layer_of_node.end(), one);
    return std::min(static_cast<std::size_t>(found - history.layer_of_node.begin()), history.nodes - 1);
  };
  return {first_of(layer), first_of(layer + 1)};
}

/// Temperatures of these nodes in a row. [K]
std::span<const double> row_of(const physics::SectionHistory& history, std::size_t row, Nodes of) {
  return std::span(history.node_K).subspan(row * history.nodes + of.first, of.last - of.first + 1);
}
double mean_K(const physics::SectionHistory& history, std::size_t row, Nodes of) {
  const auto nodes_K = row_of(history, row, of);
  return std::accumulate(nodes_K.begin(), nodes_K.end(), 0.0) / static_cast<double>(nodes_K.size());
}
double coldest_K(const physics::SectionHistory& history, std::size_t row, Nodes of) {
  return std::ranges::min(row_of(history, row, of));
}
double hottest_K(const physics::SectionHistory& history, std::size_t row, Nodes of) {
  return std::ranges::max(row_of(history, row, of));
}

std::size_t hottest_row(const physics::SectionHistory& history, std::size_t rows, Nodes of) {
  std::size_t best = 0;
  for (std::size_t r = 1; r < rows; ++r)
    if (mean_K(history, r, of) >= mean_K(history, best, of)) best = r;
  return best;
}

/// The rows of a load from one on, as they stand, through the wall.
physics::SectionProfile profile_from(const physics::SectionHistory& history, std::span<const double> load_s, std::size_t from,
                                     const ChamberHistory& chamber, double thickness_m) {
  physics::SectionProfile profile;
  const bool one = history.nodes < 2;
  profile.depth_m = one ? std::vector<double>{0, thickness_m} : history.depth_m;
  const auto add = [&](double time_s, std::size_t row) {
    profile.time_s.push_back(time_s);
    for (std::size_t n = 0; n < profile.depth_m.size(); ++n) profile.node_K.push_back(history.node_at(row, one ? 0 : n));
    if (!history.inside_mass_K.empty()) profile.mass_K.push_back(history.inside_mass_K[row]);
  };
  for (std::size_t r = from; r < load_s.size(); ++r)
    if (profile.time_s.empty() || load_s[r] > profile.time_s.back() + nearest_s) add(load_s[r], r);
  if (profile.time_s.size() == 1) add(profile.time_s.front() + 1e-3, load_s.size() - 1);  // hottest when it is taken out
  for (const ChamberMoment& moment : chamber.moments)
    if (moment.time_s > profile.time_s.front() && moment.time_s < profile.time_s.back() &&
        (profile.turn_s.empty() || moment.time_s > profile.turn_s.back() + nearest_s))
      profile.turn_s.push_back(moment.time_s);
  return profile;
}

/// Out of the chamber: radiation and still air outside; inside what stands there.
void add_room(const trade::Section& section, const StressLayers& bonded, const Stock& stock, double room_C,
              physics::CoolingCourse& course) {
  const double emissivity = property(material_of(section.layers[bonded.layers.size() - 1], stock), "emissivity");
  course.outer = physics::FaceCooling{room_air_W_per_m2K, emissivity};
  course.inner = section.inside.value == trade::SectionInside::open
                     ? physics::FaceCooling{hollow_air_W_per_m2K, physics::InsideFace{}.chamber_share * emissivity}
                     : physics::FaceCooling{};
  if (section.inside.value == trade::SectionInside::mass && section.inner_mass)
    course.mass = physics::InnerMass{section.inner_mass->heat_capacity_J_per_m2K.value, section.inner_mass->gap_W_per_m2K.value, 0};
  course.ambient_K = room_C + physics::zero_celsius_K;
}

/// Mean rate from 50 K above the transition to 100 K below it, or to the end of the firing where that comes before; 0 where it is not
/// passed.
double cooling_rate_K_per_s(const physics::SectionHistory& history, std::span<const double> load_s, std::size_t from, Nodes of,
                            double transition_K) {
  const auto falls_below = [&](double level_K) -> std::optional<std::size_t> {
    for (std::size_t r = from; r < load_s.size(); ++r)
      if (mean_K(history, r, of) < level_K) return r;
    return std::nullopt;
  };
  const auto first = falls_below(transition_K + 50);
  if (!first || !falls_below(transition_K)) return 0;
  const std::size_t last = falls_below(transition_K - 100).value_or(load_s.size() - 1);
  const double time_s = load_s[last] - load_s[*first];
  return time_s > 0 ? (mean_K(history, *first, of) - mean_K(history, last, of)) / time_s : 0;
}

std::optional<double> opened_at_C(const physics::SectionHistory& history, std::span<const double> load_s, const ChamberHistory& chamber,
                                  Nodes of) {
  const ChamberMoment* open = chamber.find(ChamberEvent::open);
  if (open == nullptr) return std::nullopt;
  const auto after = std::lower_bound(load_s.begin(), load_s.end(), open->time_s);
  const auto row = static_cast<std::size_t>(std::min(after - load_s.begin(), static_cast<std::ptrdiff_t>(load_s.size()) - 1));
  return hottest_K(history, row, of) - physics::zero_celsius_K;
}

/// Why a glass has not lost its stress at a row; empty where all have.
std::string too_cold(const physics::SectionHistory& history, const StressLayers& bonded, std::size_t row) {
  for (std::size_t l = 0; l < bonded.layers.size(); ++l) {
    if (!bonded.layers[l].glass) continue;
    const double reached_K = coldest_K(history, row, nodes_of(history, l)), wanted_K = bonded.transition_K[l] + liquid_above_K;
    if (reached_K < wanted_K)
      return fmt::format(
          "The glass of {} gets {:.0f} °C hot, and loses the stress of earlier firings from {:.0f} °C on; what those left is not known.",
          bonded.materials[l], reached_K - physics::zero_celsius_K, wanted_K - physics::zero_celsius_K);
  }
  return {};
}

const SectionStressState* state_of(const PieceState* start, const std::string& section) {
  if (start == nullptr) return nullptr;
  const auto found = std::find_if(start->stress.begin(), start->stress.end(), [&](const auto& one) { return one.section == section; });
  return found == start->stress.end() || found->forms.empty() ? nullptr : &*found;
}

void cool(const trade::Section& section, const Stock& stock, const physics::SectionHistory& history, const PieceHistory& of,
          const PieceState* start, CooledSection& cooled) {
  const StressLayers& bonded = cooled.bonded;
  const Nodes judged = nodes_of(history, bonded.glass);
  const std::size_t hottest = hottest_row(history, of.load_s.size(), judged);
  double thickness_m = 0;
  for (const physics::StressLayer& layer : bonded.layers) thickness_m += layer.heat.thickness_m;
  std::string cold = too_cold(history, bonded, hottest);
  const SectionStressState* carried = cold.empty() ? nullptr : state_of(start, section.name);
  if (!cold.empty() && (carried == nullptr || carried->must_melt)) {
    cooled.not_computed = std::move(cold);
    return;
  }
  cooled.carried = carried;
  const std::size_t from = carried != nullptr ? 0 : hottest;
  cooled.started_C = mean_K(history, from, judged) - physics::zero_celsius_K;
  cooled.course.profile = profile_from(history, of.load_s, from, of.chamber, thickness_m);
  cooled.course.from_liquid = carried == nullptr;
  add_room(section, bonded, stock, of.chamber.room_C, cooled.course);
  cooled.opened_at_C = opened_at_C(history, of.load_s, of.chamber, judged);
  cooled.cooling_K_per_s = cooling_rate_K_per_s(history, of.load_s, hottest, judged, bonded.transition_K[bonded.glass]);
}

physics::CoolingStress begun(const CooledSection& cooled, const FormCase& form, const physics::StressAccuracy& accuracy) {
  const double start_K = cooled.started_C + physics::zero_celsius_K;
  return {form.of.form, form.of.inner_radius_m, cooled.bonded.layers, start_K, accuracy};
}

/// The state carried in for a form; null where it starts as a liquid. Errors: std::domain_error where the form was not followed before.
const std::vector<double>* carried_for(const CooledSection& cooled, const FormCase& form) {
  if (cooled.carried == nullptr) return nullptr;
  for (const FormStressState& one : cooled.carried->forms)
    if (one.form == form.of.form) return &one.state;
  throw std::domain_error("What earlier firings left is not known for this form.");
}

/// How far the figures may be off: the same once more with coarser steps and every second row. A state carried in has its own points: the
/// steps alone are coarser then.
double error_Pa(const CooledSection& cooled, const FormCase& form, const physics::CoolingReport& fine) {
  physics::CoolingCourse rougher = cooled.course;
  rougher.profile = physics::thinned(*cooled.course.profile);
  physics::StressAccuracy rough = physics::coarser(shown);
  const std::vector<double>* carried = carried_for(cooled, form);
  if (carried != nullptr) rough = {rough.step_K, shown.glass_points, shown.elastic_points};
  physics::CoolingStress second = begun(cooled, form, rough);
  if (carried != nullptr) second.resume(*carried);
  return physics::told_error_Pa(fine, second.run(rougher).back());
}

/// What was carried in was cooled through, and this cooling; nullptr where the former is not known.
std::shared_ptr<const std::vector<physics::EarlierCooling>> cooled_through(const CooledSection& cooled) {
  std::vector<physics::EarlierCooling> through;
  if (cooled.carried != nullptr) {
    if (cooled.carried->cooled_through == nullptr) return nullptr;
    through = *cooled.carried->cooled_through;
  }
  physics::EarlierCooling& last = through.emplace_back();
  for (const FormCase& form : cooled.forms) last.forms.push_back(form.of);
  last.layers = cooled.bonded.layers;
  last.start_K = cooled.started_C + physics::zero_celsius_K;
  last.course = cooled.course;
  return std::make_shared<const std::vector<physics::EarlierCooling>>(std::move(through));
}

FormStress form_stress(const CooledSection& cooled, const FormCase& form, bool traces, std::vector<double>& time_s,
                       std::vector<double>& state) {
  FormStress told;
  told.form = form.of.form;
  told.inner_radius_m = form.of.inner_radius_m;
  told.remark_only = form.remark_only;
  physics::CoolingStress piece = begun(cooled, form, shown);
  if (const std::vector<double>* carried = carried_for(cooled, form)) piece.resume(*carried);
  physics::CoolingTrace trace;
  const physics::CoolingReport last = piece.run(cooled.course, traces ? &trace : nullptr).back();
  told.layers = last.layers;
  told.curvature_per_m = last.curvature_per_m;
  told.largest_difference_K = last.largest_difference_K;
  told.error_Pa = error_Pa(cooled, form, last);
  state = piece.state();
  if (time_s.empty()) {
    time_s = trace.time_s;
    told.highest_trace_Pa = std::move(trace.highest_Pa);
  } else {
    for (const std::vector<double>& highest_Pa : trace.highest_Pa)
      told.highest_trace_Pa.push_back(read_off(trace.time_s, highest_Pa, time_s));  // on the times of the first form
  }
  return told;
}

}  // namespace

std::vector<FormCase> forms_of(const trade::Piece& piece, const trade::Section& section) {
  using physics::StressForm;
  const double radius_m = geometry_of(piece, section).inner_radius_m;
  const bool half = section.inside.value == trade::SectionInside::closed;  // of a solid: its middle may not bend
  const FormCase flat{{StressForm::plate_flat, 0}, false};
  const FormCase free_beside{{StressForm::plate_free, 0}, true};
  const FormCase sphere{{StressForm::sphere, radius_m}, false}, cylinder{{StressForm::cylinder, radius_m}, false};
  const bool curved = section.form.value != trade::SectionForm::plate && radius_m > 0;
  if (curved && section.form.value == trade::SectionForm::shell) return {sphere, cylinder, flat, free_beside};
  if (curved) return {cylinder, flat, {sphere.of, true}, free_beside};
  if (half) return {flat};
  const bool may_bend = piece.shape == "bar" || piece.shape == "disc" || piece.shape == "veneer";
  if (may_bend) return {{{StressForm::plate_free, 0}, false}, flat};
  return {flat, free_beside};
}

std::vector<CooledSection> cooled_sections(const trade::Piece& piece, const Stock& stock, const PieceHistory& history,
                                           const PieceState* start) {
  std::vector<CooledSection> all;
  for (std::size_t s = 0; s < piece.sections.size(); ++s) {
    CooledSection& cooled = all.emplace_back();
    cooled.section = piece.sections[s].name;
    cooled.bonded = stress_layers(piece.sections[s], stock);
    cooled.not_computed = cooled.bonded.missing;
    if (!cooled.not_computed.empty()) continue;
    cooled.forms = forms_of(piece, piece.sections[s]);
    cool(piece.sections[s], stock, history.sections[s], history, start, cooled);
  }
  return all;
}

SectionStress stress_of(const CooledSection& cooled, bool traces, SectionStressState* end) {
  SectionStress told;
  told.section = cooled.section;
  told.materials = cooled.bonded.materials;
  told.not_computed = cooled.not_computed;
  if (!told.not_computed.empty()) return told;
  if (!cooled.bonded.left_out.empty()) told.remarks.push_back(cooled.bonded.left_out);
  told.glass = cooled.bonded.glass;
  told.glass_transition_C = cooled.bonded.transition_K[told.glass] - physics::zero_celsius_K;
  told.mismatch_per_K = cooled.bonded.mismatch_per_K;
  told.started_C = cooled.started_C;
  told.carried_in = cooled.carried != nullptr;
  told.opened_at_C = cooled.opened_at_C;
  told.cooling_K_per_s = cooled.cooling_K_per_s;
  SectionStressState left{cooled.section, false, {}, end != nullptr ? cooled_through(cooled) : nullptr};
  try {
    for (const FormCase& form : cooled.forms) {
      std::vector<double> state;
      told.forms.push_back(form_stress(cooled, form, traces, told.time_s, state));
      left.forms.push_back({form.of.form, form.of.inner_radius_m, std::move(state)});
    }
  } catch (const std::domain_error& impossible) {
    told.forms.clear();
    told.not_computed = impossible.what();
    return told;
  }
  for (std::size_t f = 0; f < told.forms.size(); ++f) {
    const auto highest = [&](std::size_t i) { return told.forms[i].layers[told.glass].highest_hoop_Pa; };
    if (!told.forms[f].remark_only && highest(f) > highest(told.worst)) told.worst = f;
  }
  if (end != nullptr) *end = std::move(left);
  return told;
}

std::vector<physics::LayerCooling> stress_in_form(const CooledSection& cooled, const FormCase& form) {
  return begun(cooled, form, shown).run(cooled.course).back().layers;
}

void add_bounds(const CooledSection& cooled, unsigned workers, const std::function<void()>& go_on, SectionStress& stress) {
  if (stress.forms.empty()) return;
  std::span<const physics::EarlierCooling> before;
  if (cooled.carried != nullptr) {
    if (cooled.carried->cooled_through == nullptr) return;  // its state belongs to the materials as they are
    before = *cooled.carried->cooled_through;
  }
  std::vector<physics::SectionCase> forms;
  std::vector<std::size_t> judged;
  for (std::size_t f = 0; f < cooled.forms.size(); ++f) {
    if (cooled.forms[f].remark_only) continue;
    forms.push_back(cooled.forms[f].of);
    judged.push_back(f);
  }
  const physics::Parts parts = [&](std::size_t count, const std::function<void(std::size_t)>& part) {
    side_by_side(count, workers, [&](std::size_t i) {
      go_on();
      part(i);
    });
  };
  physics::StressBounds bounds;
  try {
    bounds = physics::stress_bounds(forms, cooled.bonded.layers, cooled.bonded.ranges, cooled.started_C + physics::zero_celsius_K,
                                    cooled.course, {}, {3.0, 7, 4}, parts, before);
  } catch (const std::domain_error& impossible) {  // at an end of a range no such glass can be
    stress.remarks.push_back(fmt::format("What the ranges of its materials do to the stress is not computed. {}", impossible.what()));
    return;
  }
  for (std::size_t i = 0; i < judged.size(); ++i) stress.forms[judged[i]].interval = bounds.forms[i];
  stress.set_size = bounds.count;
  stress.settled = bounds.settled;
}

std::vector<SectionStressState> carried_stress_states(const trade::Piece& was, const Stock& was_stock,
                                                      const std::vector<SectionStressState>& states, const trade::Piece& is,
                                                      const Stock& stock) {
  std::vector<SectionStressState> carried;
  for (const trade::Section& section : is.sections) {
    const auto before = std::find_if(was.sections.begin(), was.sections.end(), [&](const auto& one) { return one.name == section.name; });
    const auto state = std::find_if(states.begin(), states.end(), [&](const auto& one) { return one.section == section.name; });
    if (before == was.sections.end() || state == states.end()) continue;
    const StressLayers old = stress_layers(*before, was_stock), now = stress_layers(section, stock);
    if (!old.missing.empty() || !now.missing.empty()) continue;
    SectionStressState next{section.name, state->must_melt, {}, nullptr};
    std::vector<physics::LayerOrigin> origins(now.layers.size());
    for (std::size_t l = 0; l < now.layers.size(); ++l) {
      const bool same = l < old.layers.size() && old.materials[l] == now.materials[l];
      if (same) origins[l].was = l;
      const double more_m = same ? now.layers[l].heat.thickness_m - old.layers[l].heat.thickness_m : 1;
      next.must_melt = next.must_melt || more_m > 1e-9;
    }
    if (state->cooled_through != nullptr && !next.must_melt) {
      std::vector<physics::EarlierCooling> through = *state->cooled_through;
      through.back().origins = origins;
      next.cooled_through = std::make_shared<const std::vector<physics::EarlierCooling>>(std::move(through));
    }
    try {
      for (const FormCase& form : forms_of(is, section)) {
        const auto one =
            std::find_if(state->forms.begin(), state->forms.end(), [&](const auto& each) { return each.form == form.of.form; });
        if (one == state->forms.end()) continue;
        const physics::StressedPiece piece{one->form, one->inner_radius_m, old.layers, shown, one->state};
        next.forms.push_back(
            {form.of.form, form.of.inner_radius_m, physics::carried_stress(piece, form.of.inner_radius_m, now.layers, origins, shown)});
      }
    } catch (const std::domain_error&) {
      continue;  // a material was written anew since, and relaxes otherwise: what is left is not known
    }
    carried.push_back(std::move(next));
  }
  return carried;
}

}  // namespace heatwork::firing
