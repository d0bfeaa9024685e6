// The names a material's or liquid's properties go by, with unit and the range a reader accepts. One table for reader, schema and help.
#pragma once

#include <span>
#include <string_view>

namespace heatwork::trade {

struct PropertyName {
  std::string_view name;
  std::string_view unit;  ///< "" for a pure number
  double at_least;
  double at_most;
  std::string_view meaning;
  bool of_stress = false;  ///< decides the stress of cooling layers and nothing else
};

/// Every property a material may carry.
std::span<const PropertyName> material_properties();
/// Every property an alloy may carry.
std::span<const PropertyName> alloy_properties();
/// Every property a liquid may carry.
std::span<const PropertyName> liquid_properties();

}  // namespace heatwork::trade
