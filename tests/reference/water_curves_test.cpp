// Physics dries with a short saturation curve; metrology holds the steam tables. They may differ by what the theory page says.
#include <cmath>

#include "evidence_row.h"
#include "metrology/water_saturation.h"
#include "physics/drying.h"

namespace heatwork::reference {
namespace {

TEST(Drying, SaturationPressureOfPhysicsIsNearTheSteamTables) {
  Evidence row("iapws-if97, region 4", "Pa");
  for (const double t : {1.0, 20.0, 40.0, 60.0, 80.0, 100.0, 120.0}) {
    row.within_percent(physics::water_saturation_pressure_Pa(t + 273.15), metrology::water_saturation_Pa(t), 3);
  }
}

TEST(Drying, LatentHeatIsThatOfTheSteamTables) {
  Evidence row("steam tables by iapws-if97 (values from memory): 2453.5, 2357.7, 2256.4, 2202.1 kJ/kg at 20, 60, 100, 120 C", "kJ/kg");
  row.within_percent(physics::latent_heat_J_per_kg(293.15) / 1000, 2453.5, 0.5);
  row.within_percent(physics::latent_heat_J_per_kg(333.15) / 1000, 2357.7, 0.5);
  row.within_percent(physics::latent_heat_J_per_kg(373.15) / 1000, 2256.4, 0.5);
  row.within_percent(physics::latent_heat_J_per_kg(393.15) / 1000, 2202.1, 0.5);
}

}  // namespace
}  // namespace heatwork::reference
