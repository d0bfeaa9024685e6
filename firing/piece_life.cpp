#include "firing/piece_life.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "firing/column.h"
#include "firing/frame_sag.h"
#include "firing/material_physics.h"
#include "firing/stress_of_firing.h"
#include "physics/edges.h"
#include "trade/mistake.h"

namespace heatwork::firing {
namespace {

constexpr double dry_percent = 1.0;  ///< water left that counts as dry; the start of vacuum is judged by the same
/// Pores of variants: a hundredth of the void a step, far below what their inputs move.
constexpr physics::PowderAccuracy coarse_pores{1e-2, 0.4};
constexpr double leucite_from_K = 650.0 + physics::zero_celsius_K;
constexpr double leucite_to_K = 850.0 + physics::zero_celsius_K;

double percent_of_start(std::span<const double> times_s, std::span<const double> water_g, double start_g, double at_s) {
  if (start_g <= 0) return 0;
  return 100.0 * value_at(times_s, water_g, at_s) / start_g;
}

/// Time at which a falling column first goes below a level; -1 where it never does.
double first_below(std::span<const double> times_s, std::span<const double> column, double level) {
  for (std::size_t i = 0; i < column.size(); ++i) {
    if (column[i] > level) continue;
    if (i == 0) return times_s[0];
    const double share = (column[i - 1] - level) / (column[i - 1] - column[i]);
    return times_s[i - 1] + share * (times_s[i] - times_s[i - 1]);
  }
  return -1;
}

void dry(SectionResult& result, const physics::SectionHistory& section, double area_m2, std::span<const double> load_s,
         std::span<const double> times_s, const ChamberHistory& chamber) {
  if (section.water_kg_per_m2.empty() || section.water_start_kg_per_m2 <= 0) return;
  result.water_g = read_off(load_s, section.water_kg_per_m2, times_s);
  for (double& grams : result.water_g) grams *= 1000.0 * area_m2;
  result.water_start_g = 1000.0 * area_m2 * section.water_start_kg_per_m2;
  if (const ChamberMoment* closed = chamber.find(ChamberEvent::closed))
    result.water_at_close_percent = percent_of_start(times_s, result.water_g, result.water_start_g, closed->time_s);
  if (const ChamberMoment* pumped = chamber.find(ChamberEvent::vacuum_started))
    result.water_at_vacuum_percent = percent_of_start(times_s, result.water_g, result.water_start_g, pumped->time_s);
  result.dry_s = first_below(times_s, result.water_g, 0.01 * dry_percent * result.water_start_g);
  const auto worst = std::max_element(section.burst_index.begin(), section.burst_index.end());
  if (worst == section.burst_index.end()) return;
  result.burst_index = *worst;
  result.burst_at_s = load_s[static_cast<std::size_t>(worst - section.burst_index.begin())];
}

std::vector<double> node_temperatures(const physics::SectionHistory& section, std::size_t node) {
  const std::size_t rows = section.surface_K.size();
  std::vector<double> column(rows);
  for (std::size_t row = 0; row < rows; ++row) column[row] = section.node_at(row, node);
  return column;
}

double at_event(std::span<const double> times_s, std::span<const double> column, const ChamberHistory& chamber, ChamberEvent event) {
  const ChamberMoment* moment = chamber.find(event);
  if (moment == nullptr || column.empty()) return 0;
  return value_at(times_s, column, moment->time_s);
}

/// Gloss, sag and heat-work alone; what hangs on the pores stays as it was.
void do_work(PointResult& result, PointState& state, const physics::PowderProperties& powder, std::span<const double> times_s,
             std::span<const double> temperature_K) {
  const physics::PowderWork work = physics::powder_work(powder, times_s, temperature_K);
  physics::PowderState& after = *state.powder;
  after.heat_work += work.heat_work;
  after.fluidity_per_Pa += work.fluidity_per_Pa;
  after.levelling_exponent += work.levelling_exponent;
  after.rounding_um += work.rounding_um;
  result.heat_work = result.deciding = after.heat_work;
  result.rounding_um = after.rounding_um;
  result.levelling_exponent = after.levelling_exponent;
}

void sinter(PointResult& result, PointState& state, const Point& point, std::span<const double> times_s,
            std::span<const double> temperature_K, std::span<const double> pressure_Pa, const ChamberHistory& chamber,
            const physics::PowderAccuracy& accuracy) {
  const physics::PowderProperties& powder = *point.powder;
  physics::PowderTrace trace;
  physics::advance_powder(powder, *state.powder, times_s, temperature_K, pressure_Pa, &trace, accuracy);
  result.porosity_percent = 100.0 * physics::powder_porosity(powder, *state.powder);
  result.relative_density = 1.0 - physics::powder_porosity(powder, *state.powder);
  result.heat_work = result.deciding = state.powder->heat_work;
  result.rounding_um = state.powder->rounding_um;
  result.levelling_exponent = state.powder->levelling_exponent;
  for (int i = 0; i < state.powder->sealed_slices; ++i) {
    const double growth = state.powder->coarse_um[static_cast<std::size_t>(i)] / powder.coarse_start_radius_um;
    result.swelling = i == 0 ? growth * growth * growth : std::max(result.swelling, growth * growth * growth);
  }
  if (trace.half_sealed) {
    result.half_sealed_s = trace.half_sealed->time_s;
    result.half_sealed_C = trace.half_sealed->temperature_K - physics::zero_celsius_K;
    result.pressure_at_sealing_Pa = value_at(times_s, pressure_Pa, result.half_sealed_s);
  }
  if (trace.fully_sealed) result.sealed_s = trace.fully_sealed->time_s;
  if (chamber.find(ChamberEvent::vacuum_started) != nullptr)  // pores sealed in a firing before hold their gas already
    result.sealed_share_at_vacuum_start =
        at_event(times_s, trace.sealed_fraction, chamber, ChamberEvent::vacuum_started) - trace.sealed_fraction.front();
  if (chamber.find(ChamberEvent::released) != nullptr)
    result.sealed_share_at_release = at_event(times_s, trace.sealed_fraction, chamber, ChamberEvent::released);
  result.sealed_trace = std::move(trace.sealed_fraction);
  result.rounding_trace_um = std::move(trace.rounding_um);
  result.porosity_trace_percent = std::move(trace.porosity);
  for (double& porosity : result.porosity_trace_percent) porosity *= 100.0;
}

void crystallise(PointResult& result, PointState& state, const Point& point, std::span<const double> times_s,
                 std::span<const double> temperature_K) {
  physics::CrystallisationTrace trace;
  physics::advance_crystallisation(*point.crystals, *state.crystals, times_s, temperature_K, &trace);
  const auto& steps = point.crystals->steps;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const double z = state.crystals->z[i];
    result.exponent_argument.push_back(std::isfinite(z) ? z : -1.0);
    const bool last = i + 1 == steps.size();
    result.fraction.push_back(last ? physics::net_fraction(*point.crystals, *state.crystals)
                                   : physics::transformed_fraction(z, steps[i].exponent));
  }
  result.crystal_um = state.crystals->crystal_um;
  result.transmittance_percent = physics::transmittance_550nm_percent(result.crystal_um);
  result.fraction_trace = std::move(trace.fraction);
  result.deciding = state.crystals->z.back();
}

void refuse_hotter_than_known(const trade::Piece& piece, const PointResult& at) {
  if (at.peak_C <= physics::hottest_sintering_C) return;
  const trade::Section& section = piece.sections[static_cast<std::size_t>(at.section)];
  throw trade::Mistake(
      section.layers[static_cast<std::size_t>(at.layer)].material.place,
      fmt::format("piece {} gets to {:.1f} °C; of the sintering of zirconia nothing is known above {:.0f} °C: fire it cooler", piece.name,
                  at.peak_C, physics::hottest_sintering_C));
}

void densify(PointResult& result, PointState& state, const Point& point, std::span<const double> times_s,
             std::span<const double> temperature_K) {
  physics::ZirconiaTrace trace;
  physics::advance_zirconia(*point.zirconia, *state.zirconia, times_s, temperature_K, &trace);
  result.curve = physics::curve_standing(*state.zirconia);
  result.sintered_density = physics::sintered_density(point.zirconia->curve, state.zirconia->log_theta);
  result.grain_um = state.zirconia->grain_um;
  result.density_trace = std::move(trace.density);
  result.deciding = std::exp(state.zirconia->log_theta);
}

bool rigid_beneath(const trade::Section& section, std::size_t layer, const Stock& stock) {
  for (std::size_t i = 0; i < layer; ++i) {
    const trade::MaterialKind kind = material_of(section.layers[i], stock).kind;
    if (kind == trade::MaterialKind::core || kind == trade::MaterialKind::metal) return true;
  }
  return false;
}

SectionResult section_life(const trade::Piece& piece, const trade::Section& section, const Stock& stock,
                           const physics::SectionHistory& life, std::span<const double> load_s, std::span<const double> times_s,
                           const ChamberHistory& chamber) {
  SectionResult result;
  const SectionGeometry geometry = geometry_of(piece, section);
  result.name = section.name;
  result.lumped = life.lumped;
  result.biot = life.largest_biot;
  result.surface_C = read_off(load_s, life.surface_K, times_s);
  result.core_C = read_off(load_s, life.core_K, times_s);
  for (double& t : result.surface_C) t -= physics::zero_celsius_K;
  for (double& t : result.core_C) t -= physics::zero_celsius_K;
  dry(result, life, geometry.area_m2, load_s, times_s, chamber);
  for (std::size_t i = 0; i < section.layers.size(); ++i) {
    if (wet_with_other_than_water(section.layers[i], stock)) result.not_water = true;
    if (section.layers[i].green && rigid_beneath(section, i, stock)) result.on_rigid_frame = true;
  }
  return result;
}

/// Sag of the section's overhang, from the softest point of its porcelain.
double sag_um(const trade::Section& section, int index, std::span<const Point> points, const PieceState& start, const PieceState& end) {
  if (!section.unsupported_length) return 0;
  double worst = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].section != index || !points[i].powder) continue;
    const double fluidity = end.points[i].powder->fluidity_per_Pa - start.points[i].powder->fluidity_per_Pa;
    worst = std::max(worst, physics::cantilever_sag_um(1000.0 * section.unsupported_length->value.si(), points[i].thickness_mm,
                                                       property(*points[i].material, "density"), fluidity));
  }
  return worst;
}

/// Variants keep numbers only.
void drop_traces(PointResult& result) {
  for (std::vector<double>* trace :
       {&result.porosity_trace_percent, &result.sealed_trace, &result.rounding_trace_um, &result.fraction_trace, &result.density_trace})
    *trace = {};
}

void find_deciding(PieceResult& result) {
  for (std::size_t i = 0; i < result.points.size(); ++i) {
    const PointResult& point = result.points[i];
    if (!point.decides) continue;
    if (result.deciding_point < 0 || point.deciding < result.deciding_least) {
      result.deciding_point = static_cast<int>(i);
      result.deciding_least = point.deciding;
    }
    result.deciding_greatest = std::max(result.deciding_greatest, point.deciding);
  }
}

/// A build-up that is fired already decides nothing where another layer is unfired or crystallises; where none is, this is a second
/// firing of the same layers and they decide again.
void leave_to_the_unfired(std::vector<Point>& points, const PieceState& start) {
  std::vector<bool> fired(points.size(), false);
  bool any_other = false;
  for (std::size_t i = 0; i < points.size(); ++i) {
    fired[i] = is_fired(points[i], start.points[i]);
    any_other = any_other || (points[i].decides && !fired[i]);
  }
  for (std::size_t i = 0; i < points.size(); ++i)
    if (fired[i] && any_other) points[i].decides = false;
}

}  // namespace

std::vector<Point> points_of(const trade::Piece& piece, const Stock& stock, const PieceState* start) {
  std::vector<Point> points;
  for (std::size_t s = 0; s < piece.sections.size(); ++s) {
    for (std::size_t l = 0; l < piece.sections[s].layers.size(); ++l) {
      const trade::Layer& layer = piece.sections[s].layers[l];
      const trade::Material& material = material_of(layer, stock);
      Point point;
      point.section = static_cast<int>(s);
      point.layer = static_cast<int>(l);
      point.material = &material;
      point.thickness_mm = 1000.0 * layer.thickness.value.si();
      if (is_viscous(material)) {
        point.powder = powder_of(material);
        point.decides = layer.green;
        if (layer.green) point.thickness_mm *= point.powder->start_relative_density;
      } else if (is_crystallising(material)) {
        point.crystals = crystallisation_of(material);
        point.decides = true;
      } else if (layer.green && is_zirconia(material)) {
        point.zirconia = zirconia_of(material);
        point.decides = true;
      } else {
        continue;
      }
      points.push_back(point);
      point.outer_face = true;
      points.push_back(point);
    }
  }
  if (start != nullptr) leave_to_the_unfired(points, *start);
  return points;
}

bool is_fired(const Point& point, const PointState& state) {
  if (point.powder && state.powder) return is_fired(*point.powder, *state.powder);
  return point.zirconia && state.zirconia && is_sintered(*point.zirconia, *state.zirconia);
}

std::size_t node_of(const physics::SectionHistory& section, const Point& point) {
  const std::size_t wanted = static_cast<std::size_t>(point.layer) + (point.outer_face ? 1U : 0U);
  for (std::size_t i = 0; i < section.nodes; ++i)
    if (section.layer_of_node[i] >= wanted) return i;
  return section.nodes - 1;
}

PieceState start_state(std::span<const Point> points) {
  PieceState state;
  for (const Point& point : points) {
    PointState at;
    if (point.powder) at.powder = point.decides ? physics::start_powder(*point.powder) : as_nominally_fired(*point.material, *point.powder);
    if (point.crystals) at.crystals = physics::start_crystallisation(*point.crystals);
    if (point.zirconia) at.zirconia = physics::start_zirconia(*point.zirconia);
    state.points.push_back(std::move(at));
  }
  return state;
}

PieceState carried_state(const trade::Piece& was, const Stock& was_stock, const PieceState& state, const trade::Piece& is,
                         const Stock& stock) {
  const std::vector<Point> old_points = points_of(was, was_stock), new_points = points_of(is, stock);
  PieceState carried = start_state(new_points);
  for (std::size_t n = 0; n < new_points.size(); ++n) {
    const Point& to = new_points[n];
    for (std::size_t o = 0; o < old_points.size(); ++o) {
      const Point& from = old_points[o];
      const bool same_section =
          was.sections[static_cast<std::size_t>(from.section)].name == is.sections[static_cast<std::size_t>(to.section)].name;
      if (same_section && from.layer == to.layer && from.outer_face == to.outer_face && from.material->name == to.material->name)
        carried.points[n] = state.points[o];
    }
  }
  if (!state.stress.empty()) carried.stress = carried_stress_states(was, was_stock, state.stress, is, stock);
  return carried;
}

std::vector<double> common_times(const std::vector<double>& load_s, const std::vector<double>& chamber_s) {
  std::vector<double> all;
  all.reserve(load_s.size() + chamber_s.size());
  std::merge(load_s.begin(), load_s.end(), chamber_s.begin(), chamber_s.end(), std::back_inserter(all));
  constexpr double same_s = 1e-6;
  all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return b - a < same_s; }), all.end());
  return all;
}

PieceLife live(const trade::Piece& piece, trade::PlaceOnTray place, const Stock& stock, std::span<const physics::SectionHistory> sections,
               std::span<const double> load_s, const ChamberHistory& chamber, std::span<const double> times_s, const PieceState& start,
               Detail detail, const std::vector<bool>* pores_at) {
  PieceLife life{{}, start};
  PieceResult& result = life.result;
  result.piece = piece.name;
  result.place = place;
  for (std::size_t s = 0; s < sections.size(); ++s) {
    result.sections.push_back(section_life(piece, piece.sections[s], stock, sections[s], load_s, times_s, chamber));
    const auto highest = [](const std::vector<double>& column) { return *std::max_element(column.begin(), column.end()); };
    const double surface_C = highest(result.sections.back().surface_C), core_C = highest(result.sections.back().core_C);
    result.peak_surface_C = s == 0 ? surface_C : std::max(result.peak_surface_C, surface_C);
    result.peak_core_C = s == 0 ? core_C : std::min(result.peak_core_C, core_C);
  }
  result.peak_display_C = *std::max_element(chamber.display_C.begin(), chamber.display_C.end());
  result.peak_chamber_C = *std::max_element(chamber.chamber_C.begin(), chamber.chamber_C.end());

  if (detail == Detail::drying) return life;
  result.frame_sag = frame_sag(piece, stock, times_s, result.sections);
  const std::vector<double> pressure_Pa = read_off(chamber.time_s, chamber.pressure_Pa, times_s);
  const std::vector<Point> points = points_of(piece, stock, &start);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point& point = points[i];
    const physics::SectionHistory& section = sections[static_cast<std::size_t>(point.section)];
    const std::vector<double> temperature_K = read_off(load_s, node_temperatures(section, node_of(section, point)), times_s);
    PointResult at;
    at.section = point.section;
    at.layer = point.layer;
    at.outer_face = point.outer_face;
    at.material = point.material->name;
    at.decides = point.decides;
    at.peak_C = *std::max_element(temperature_K.begin(), temperature_K.end()) - physics::zero_celsius_K;
    at.viscous = point.powder.has_value();
    const bool with_pores = detail == Detail::whole || (detail == Detail::ends && (pores_at == nullptr || (*pores_at)[i]));
    if (point.powder && !with_pores) do_work(at, life.end.points[i], *point.powder, times_s, temperature_K);
    if (point.powder && with_pores)
      sinter(at, life.end.points[i], point, times_s, temperature_K, pressure_Pa, chamber,
             detail == Detail::ends ? coarse_pores : physics::PowderAccuracy{});
    if (point.zirconia) refuse_hotter_than_known(piece, at);
    if (point.zirconia) densify(at, life.end.points[i], point, times_s, temperature_K);
    if (point.crystals) crystallise(at, life.end.points[i], point, times_s, temperature_K);
    if (property_or(*point.material, "leucite_share", 0.0) > 0) {
      at.leucite_minutes = physics::minutes_between(times_s, temperature_K, leucite_from_K, leucite_to_K);
      at.leucite_minutes_before = start.points[i].leucite_minutes;
      life.end.points[i].leucite_minutes += at.leucite_minutes;
    }
    if (detail != Detail::whole) drop_traces(at);
    result.points.push_back(std::move(at));
  }
  for (std::size_t s = 0; s < result.sections.size(); ++s)
    result.sections[s].sag_um = sag_um(piece.sections[s], static_cast<int>(s), points, start, life.end);
  find_deciding(result);
  return life;
}

}  // namespace heatwork::firing
