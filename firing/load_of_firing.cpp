#include "firing/load_of_firing.h"

#include <fmt/format.h>

#include <numbers>
#include <stdexcept>

#include "firing/material_physics.h"
#include "trade/mistake.h"
#include "trade/shape.h"

namespace heatwork::firing {
namespace {

/// Of the tray's own mass range by size, where no tray of the lab is known: from honeycomb to solid. Standing: assumed.
constexpr double lightest_share_of_solid = 0.35;
constexpr double heaviest_share_of_solid = 1.0;
/// Radiating surface of pins or beads over their contact with the piece. Standing: assumed.
constexpr double support_area_over_contact = 6.0;
/// Relative density from which the pores of zirconia count as closed, and the temperatures between which it comes to conduct as when
/// dense. Standing: assumed.
constexpr double closed_density = 0.92;
constexpr double densifies_from_C = 1150.0;
constexpr double densified_C = 1400.0;
/// Density of water. [kg/m3]
constexpr double kg_per_m3_of_g_per_cm3 = 1000.0;

physics::SectionForm form_of(trade::SectionForm form) {
  switch (form) {
    case trade::SectionForm::plate:
      return physics::SectionForm::plate;
    case trade::SectionForm::tube:
      return physics::SectionForm::tube;
    case trade::SectionForm::shell:
      return physics::SectionForm::shell;
  }
  throw std::logic_error("a section has a form that does not exist");
}

physics::InsideFace inside_of(const trade::Section& section) {
  physics::InsideFace face;
  switch (section.inside.value) {
    case trade::SectionInside::closed:
      face.kind = physics::Inside::closed;
      break;
    case trade::SectionInside::open:
      face.kind = physics::Inside::open;
      break;
    case trade::SectionInside::mass:
      if (!section.inner_mass)
        throw trade::Mistake(section.inside.place, "inside is a mass, but inner_mass is missing; give its heat_capacity and gap");
      face.kind = physics::Inside::mass;
      face.heat_capacity_J_per_m2K = section.inner_mass->heat_capacity_J_per_m2K.value;
      face.gap_W_per_m2K = section.inner_mass->gap_W_per_m2K.value;
      break;
  }
  return face;
}

/// A build-up enters as the dense layer it becomes (mass kept), conducting worse by factor and extra thickness while it is powder.
physics::PowderLayer powder_layer(const trade::Layer& layer, std::size_t index, const trade::Material& material) {
  const physics::PowderProperties powder = powder_of(material);
  const SealingRange sealing = sealing_range_of(powder);
  physics::PowderLayer green;
  green.layer = index;
  green.conductivity_factor = property(material, "powder_conductivity_factor") * powder.start_relative_density;
  green.sealing_from_K = sealing.from_K;
  green.sealing_to_K = sealing.to_K;
  green.void_fraction = 1.0 - powder.start_relative_density;
  green.grain_diameter_m = property(material, "fine_grain_diameter") * 1e-6;
  green.strength_Pa = property(material, "moist_strength") * 1000.0;
  if (layer.liquid) green.water_kg_per_m2 = property(material, "water_content") * kg_per_m3_of_g_per_cm3 * layer.thickness.value.si();
  return green;
}

/// Pre-sintered zirconia, in the same way: its pores are open until it densifies.
physics::PowderLayer zirconia_layer(const trade::Layer& layer, std::size_t index, const trade::Material& material) {
  const double density = property(material, "start_relative_density");
  physics::PowderLayer green;
  green.layer = index;
  green.conductivity_factor = property(material, "powder_conductivity_factor") * density;
  green.sealing_from_K = densifies_from_C + physics::zero_celsius_K;
  green.sealing_to_K = densified_C + physics::zero_celsius_K;
  green.void_fraction = 1.0 - density;
  green.grain_diameter_m = property(material, "fine_grain_diameter") * 1e-6;
  green.strength_Pa = property(material, "moist_strength") * 1000.0;
  if (layer.liquid) green.water_kg_per_m2 = property(material, "water_content") * kg_per_m3_of_g_per_cm3 * layer.thickness.value.si();
  return green;
}

physics::SectionBody section_body(const trade::Piece& piece, const trade::Section& section, trade::PlaceOnTray place, const Stock& stock,
                                  const std::vector<bool>& fired) {
  const SectionGeometry geometry = geometry_of(piece, section);
  const ViewShares shares = view_shares(place);
  physics::SectionBody body;
  body.form = form_of(section.form.value);
  body.inner_radius_m = geometry.inner_radius_m;
  body.area_m2 = geometry.area_m2;
  body.chamber_share = shares.chamber;
  body.tray_share = shares.tray;
  body.inside = inside_of(section);
  for (std::size_t i = 0; i < section.layers.size(); ++i) {
    const trade::Layer& layer = section.layers[i];
    const trade::Material& material = material_of(layer, stock);
    double thickness_m = layer.thickness.value.si();
    if (layer.green) {
      const bool zirconia = is_zirconia(material);
      if (!is_viscous(material) && !zirconia)
        throw trade::Mistake(layer.material.place,
                             fmt::format("material {} is not a powder, so its layer cannot be green; leave green out", material.name));
      const bool still_powder = i >= fired.size() || !fired[i];
      if (still_powder && body.powder)
        throw trade::Mistake(layer.material.place,
                             "a second green layer in one section; a section has at most one: join them, or fire them one after the other");
      if (still_powder) body.powder = zirconia ? zirconia_layer(layer, i, material) : powder_layer(layer, i, material);
      thickness_m *= property(material, "start_relative_density");
    }
    body.layers.push_back(layer_of(material, thickness_m));
    body.emissivity = property(material, "emissivity");
  }
  return body;
}

}  // namespace

ViewShares view_shares(trade::PlaceOnTray place) {
  switch (place) {
    case trade::PlaceOnTray::middle:
      return {0.80, 0.20};
    case trade::PlaceOnTray::between:
      return {0.74, 0.20};
    case trade::PlaceOnTray::edge:
      return {0.86, 0.14};
  }
  throw std::logic_error("a piece stands in a place that does not exist");
}

const trade::Material& material_of(const trade::Layer& layer, const Stock& stock) {
  const auto found = stock.materials.find(layer.material.value);
  if (found == stock.materials.end())
    throw trade::Mistake(layer.material.place, fmt::format("no material is named {}", layer.material.value));
  return found->second;
}

bool wet_with_other_than_water(const trade::Layer& layer, const Stock& stock) {
  if (!layer.liquid) return false;
  const auto found = stock.liquids.find(layer.liquid->value);
  return found == stock.liquids.end() || !found->second.water_only;
}

SectionGeometry geometry_of(const trade::Piece& piece, const trade::Section& section) {
  SectionGeometry geometry;
  const trade::ShapeDefaults shape = trade::shape_defaults(piece.shape);
  const bool curved = section.form.value != trade::SectionForm::plate;
  if (section.area) {
    geometry.area_m2 = section.area->value.si();
  } else {
    geometry.area_m2 = shape.section_area.value.si();
    geometry.from_shape =
        fmt::format("{}, {}: outer area {:.0f} mm² taken from the shape ({:.0f} to {:.0f} mm², assumed)", piece.name, section.name,
                    1e6 * shape.section_area.value.si(), 1e6 * shape.section_area.low.si(), 1e6 * shape.section_area.high.si());
  }
  if (section.inner_radius) {
    geometry.inner_radius_m = section.inner_radius->value.si();
  } else if (curved) {
    geometry.inner_radius_m = shape.inner_radius.value.si();
    if (!geometry.from_shape.empty()) geometry.from_shape += "; ";
    geometry.from_shape +=
        fmt::format("{}, {}: inner radius {:.1f} mm taken from the shape ({:.1f} to {:.1f} mm, assumed)", piece.name, section.name,
                    1e3 * shape.inner_radius.value.si(), 1e3 * shape.inner_radius.low.si(), 1e3 * shape.inner_radius.high.si());
  }
  return geometry;
}

bool is_fired(const physics::PowderProperties& powder, const physics::PowderState& state) {
  return state.highest_K > sealing_range_of(powder).from_K;
}

bool is_sintered(const physics::ZirconiaProperties& zirconia, const physics::ZirconiaState& state) {
  return physics::sintered_density(zirconia.curve, state.log_theta) >= closed_density;
}

physics::PieceBody body_of(const trade::Piece& piece, trade::PlaceOnTray place, const Stock& stock, double room_K,
                           const std::vector<std::vector<bool>>& fired) {
  physics::PieceBody body;
  body.start_K = room_K;
  for (std::size_t s = 0; s < piece.sections.size(); ++s)
    body.sections.push_back(section_body(piece, piece.sections[s], place, stock, s < fired.size() ? fired[s] : std::vector<bool>{}));
  if (piece.support) {
    const auto found = stock.supports.find(piece.support->value);
    if (found == stock.supports.end())
      throw trade::Mistake(piece.support->place, fmt::format("no support is named {}", piece.support->value));
    const trade::Support& support = found->second;
    const auto material = stock.materials.find(support.material.value);
    if (material == stock.materials.end())
      throw trade::Mistake(support.material.place, fmt::format("no material is named {}", support.material.value));
    physics::SupportBody mass;
    mass.heat_capacity_J_per_K = support.mass.value.si() * specific_heat_of(material->second).at_C(600.0);
    mass.area_m2 = support.contact.value.si() * support_area_over_contact;
    mass.emissivity = property(material->second, "emissivity");
    mass.to_tray_W_per_K = support.gap_W_per_m2K.value * support.contact.value.si();
    mass.to_piece_W_per_K = mass.to_tray_W_per_K;
    body.support = mass;
  }
  return body;
}

physics::TrayBody body_of(const trade::Tray& tray, double mass_kg, const Stock& stock, double room_K) {
  const auto found = stock.materials.find(tray.material.value);
  if (found == stock.materials.end())
    throw trade::Mistake(tray.material.place, fmt::format("no material is named {}", tray.material.value));
  const double diameter_m = tray.diameter.value.si();
  physics::TrayBody body;
  body.mass_kg = mass_kg;
  body.specific_heat_J_per_kgK = specific_heat_of(found->second);
  body.area_m2 = std::numbers::pi * diameter_m * (diameter_m / 2.0 + tray.thickness.value.si());
  body.emissivity = property(found->second, "emissivity");
  body.start_K = room_K;
  return body;
}

MassRange mass_range(const trade::Tray& tray, const std::vector<trade::Tray>& lab_trays, const Stock& stock) {
  if (!lab_trays.empty())
    return {lab_trays.front().mass->value.si(), lab_trays.back().mass->value.si(),
            fmt::format("between the lab's lightest and heaviest tray ({} and {})", lab_trays.front().name, lab_trays.back().name)};
  const auto found = stock.materials.find(tray.material.value);
  if (found == stock.materials.end())
    throw trade::Mistake(tray.material.place, fmt::format("no material is named {}", tray.material.value));
  const double diameter_m = tray.diameter.value.si();
  const double solid_kg =
      0.25 * std::numbers::pi * diameter_m * diameter_m * tray.thickness.value.si() * property(found->second, "density");
  return {lightest_share_of_solid * solid_kg, heaviest_share_of_solid * solid_kg, "between a pierced and a solid tray of its size"};
}

}  // namespace heatwork::firing
