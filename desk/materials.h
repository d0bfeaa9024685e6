// The materials that ship, and a lab's own: listed, and shown with every value, its range, standing and source.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/json_value.h"
#include "trade/material.h"

namespace heatwork::desk {

/// Every shipped class of material, in order of name; read once.
const std::vector<trade::Material>& shipped_materials();
/// Errors: Failure unknown_name with the near miss.
const trade::Material& shipped_material(std::string_view name);
/// A shipped class by its name, or a lab's own by the path of its file (a name that ends in .toml). Errors: as above, or Mistake.
trade::Material find_material(const std::string& name_or_file);

/// Text of at most 100 columns.
std::string materials_as_text();
std::string material_as_text(const trade::Material& material);
/// Keys stay; `format` first.
Json materials_as_json();
Json material_as_json(const trade::Material& material);

}  // namespace heatwork::desk
