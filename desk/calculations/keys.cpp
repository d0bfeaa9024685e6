#include "desk/calculations/keys.h"

#include "physics/layer.h"

namespace heatwork::desk {

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
