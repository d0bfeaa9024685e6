// Spectra by which glasses relax, as data with their sources; shipped in data/relaxation/, named by a material.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "trade/place.h"

namespace heatwork::trade {

/// Shares and times at the reference temperature of stress and of structure; the bulk modulus is taken as elastic. [1, s]
struct Relaxation {
  using Terms = std::vector<std::pair<double, double>>;
  std::string name;
  std::string meaning;
  Standing standing = Standing::measured;
  std::string source;
  Terms shear, structure;
};

/// Reads a file of one spectrum. Errors: Mistake with its place, as every reader's.
Relaxation read_relaxation(std::string_view source_name, std::string_view text);

/// Names of the spectra that ship, sorted.
const std::vector<std::string>& relaxation_names();
/// One that ships; nullptr where none has that name.
const Relaxation* relaxation(std::string_view name);

}  // namespace heatwork::trade
