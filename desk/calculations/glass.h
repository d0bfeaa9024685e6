// Keys of a glass that relaxes, shared by the calculations of cooling stress.
#pragma once

#include <array>

#include "desk/calculations/keys.h"
#include "physics/structural_relaxation.h"

namespace heatwork::desk {

inline constexpr std::array<Field, 2> relaxation_columns = {between_key("weight", "share of the whole", "", 0, 1),
                                                            positive_key("s", "time at the reference temperature", "s", 1e9)};
constexpr Field spectrum_key(std::string_view name, std::string_view meaning) {
  return {.name = name, .meaning = meaning, .shape = Shape::rows, .most = 12, .parts = relaxation_columns};
}
inline constexpr std::array<Field, 2> bulk_keys = {
    between_key("remaining", "share of the bulk modulus that never relaxes", "", 0, 1),
    spectrum_key("terms", "spectrum of the share that does; weights sum to 1 within 0.01"),
};
inline constexpr Field liquid_key = between_key("liquid_expansion_ppm_per_K", "linear, of the melt", "ppm/K", -1000, 1000);
inline constexpr Field reference_key = between_key("reference_K", "where the clock of relaxation runs at rate 1", "K", 200, 3000);
inline constexpr Field activation_key = positive_key("activation_K", "activation energy over the gas constant", "K", 1e6);
inline constexpr Field nonlinearity_key = between_key("nonlinearity", "x: share of the clock that follows the temperature", "", 0, 1);
inline constexpr Field shear_key = spectrum_key("shear", "spectrum of the shear modulus; weights sum to 1 within 0.01");
inline constexpr Field structure_key = spectrum_key("structure", "spectrum of the structure; weights sum to 1 within 0.01");
inline constexpr Field bulk_key = {.name = "bulk",
                                   .meaning = "relaxation of the bulk modulus; where not given it is elastic",
                                   .shape = Shape::object,
                                   .required = false,
                                   .parts = bulk_keys};

inline std::vector<physics::RelaxationTerm> spectrum_of(const Inputs& given, std::string_view key) {
  const std::vector<double> weights = given.column(key, 0), times_s = given.column(key, 1);
  std::vector<physics::RelaxationTerm> terms;
  for (std::size_t i = 0; i < weights.size(); ++i) terms.push_back({weights[i], times_s[i]});
  return terms;
}

inline physics::RelaxingGlass relaxing_glass_of(const Inputs& given) {
  return {given.number("reference_K"), given.number("activation_K"), given.number("nonlinearity"), spectrum_of(given, "structure")};
}

}  // namespace heatwork::desk
