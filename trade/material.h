// Materials as generic classes or a lab's own: per property a value, its range, unit, standing and source.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "trade/place.h"

namespace heatwork::trade {

/// What a material is in a firing; decides which properties it must carry.
enum class MaterialKind { powder, block, core, metal, die, other };

/// A material; `properties` by the names of trade/property.h, each in the unit written there.
struct Material {
  std::string name;
  std::string label;
  std::string note;
  MaterialKind kind = MaterialKind::other;
  std::string family;  ///< such as "feldspathic veneer for zirconia"; a program check compares families
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
