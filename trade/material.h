// Materials as generic classes or a lab's own: per property a value, its range, unit, standing and source.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/place.h"

namespace heatwork::trade {

/// What a material is in a firing; decides which properties it must carry.
enum class MaterialKind { powder, block, core, metal, die, other };

/// Where a material was calibrated by a trial firing of the lab's own, and how well it is known there.
struct Calibrated {
  std::string furnace;                                     ///< its name
  std::string tray;                                        ///< its name
  Given<quantity::TemperatureDifference> within;           ///< its firing temperature in that furnace on that tray, either way
  Maybe<quantity::TemperatureDifference> display_error_u;  ///< standard uncertainty of that display then; absent: never checked
};

/// A material; `properties` by the names of trade/property.h, each in the unit written there.
struct Material {
  std::string name;
  std::string label;
  std::string note;
  MaterialKind kind = MaterialKind::other;
  std::string family;                    ///< such as "feldspathic veneer for zirconia"; a program check compares families
  std::string relaxation;                ///< name of a spectrum that ships, for a glass whose stress is computed; may be empty
  std::optional<Calibrated> calibrated;  ///< absent: a class, or values from elsewhere
  std::map<std::string, Estimate> properties;
  Place place;

  /// nullptr where the material does not carry it.
  [[nodiscard]] const Estimate* find(const std::string& property) const {
    const auto found = properties.find(property);
    return found == properties.end() ? nullptr : &found->second;
  }
};

/// A liquid a powder is mixed with. Only plain water is modelled; others say "follow the instruction".
struct Liquid {
  std::string name;
  std::string label;
  std::string note;
  bool water_only = true;
  bool organic = false;
  std::map<std::string, Estimate> properties;  ///< boiling_from, boiling_to [C], organics [% by mass]
  Place place;
};

}  // namespace heatwork::trade
