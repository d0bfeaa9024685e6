// From pieces, tray and supports in trade words to the thermal network of physics/load.h.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "physics/load.h"
#include "physics/powder.h"
#include "physics/zirconia_sintering.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// Materials, liquids and supports by name, as `ResolvedFiring` holds them.
struct Stock {
  const std::map<std::string, trade::Material>& materials;
  const std::map<std::string, trade::Liquid>& liquids;
  const std::map<std::string, trade::Support>& supports;
};

/// Shares of a piece's outer view by its place; what is missing to 1 sees its neighbours and exchanges nothing. theory page of the load.
struct ViewShares {
  double chamber = 0;
  double tray = 0;
};
ViewShares view_shares(trade::PlaceOnTray place);

/// A section with its areas and volumes worked out; `from_shape` says what was taken from the shape.
struct SectionGeometry {
  double area_m2 = 0;
  double inner_radius_m = 0;
  std::string from_shape;  ///< one plain sentence, empty where all was given
};
SectionGeometry geometry_of(const trade::Piece& piece, const trade::Section& section);

/// True where a powder's state shows that it has begun to turn into glass: no build-up any more, and no water.
bool is_fired(const physics::PowderProperties& powder, const physics::PowderState& state);
/// True where zirconia's state shows that its pores have closed: it takes up no water and conducts as when dense.
bool is_sintered(const physics::ZirconiaProperties& zirconia, const physics::ZirconiaState& state);

/// One piece as a body. `fired` says of each section's layers whether a green one has been fired before; empty: none.
/// Errors: trade::Mistake with the user's place.
physics::PieceBody body_of(const trade::Piece& piece, trade::PlaceOnTray place, const Stock& stock, double room_K,
                           const std::vector<std::vector<bool>>& fired = {});

/// The tray as a body of the given mass. [kg]
physics::TrayBody body_of(const trade::Tray& tray, double mass_kg, const Stock& stock, double room_K);

/// Lightest and heaviest mass a tray of unknown mass may have: the lab's trays where any is known, else from its size. [kg]
struct MassRange {
  double low_kg = 0;
  double high_kg = 0;
  std::string said;  ///< where the range comes from
};
MassRange mass_range(const trade::Tray& tray, const std::vector<trade::Tray>& lab_trays, const Stock& stock);

/// Material of a layer, found. Errors: trade::Mistake (the resolver has refused it before).
const trade::Material& material_of(const trade::Layer& layer, const Stock& stock);

/// True where the layer is wet with something other than plain water, which is not modelled.
bool wet_with_other_than_water(const trade::Layer& layer, const Stock& stock);

}  // namespace heatwork::firing
