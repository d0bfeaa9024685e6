#include "desk/calculations/keys.h"

#include "desk/materials.h"
#include "firing/material_physics.h"
#include "physics/layer.h"

namespace heatwork::desk {
namespace {

std::vector<std::string> classes_where(bool (*fits)(const trade::Material&)) {
  std::vector<std::string> names;
  for (const trade::Material& material : shipped_materials()) {
    if (fits(material)) names.push_back(material.name);
  }
  return names;
}

}  // namespace

std::vector<std::string> viscous_classes() {
  return classes_where(
      [](const trade::Material& material) { return firing::is_viscous(material) && material.find("viscosity_A") != nullptr; });
}

std::vector<std::string> crystallising_classes() {
  return classes_where(firing::is_crystallising);
}

std::vector<std::string> zirconia_classes() {
  return classes_where(firing::is_zirconia);
}

physics::Vft vft_of(const Inputs& inputs) {
  const physics::Vft vft{inputs.number("A"), inputs.number("B"), inputs.number("T0_C")};
  physics::check_vft(vft);
  return vft;
}

std::vector<double> kelvins(std::vector<double> celsius) {
  for (double& temperature : celsius) temperature += physics::zero_celsius_K;
  return celsius;
}

}  // namespace heatwork::desk
