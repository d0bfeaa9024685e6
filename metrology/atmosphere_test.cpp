#include "metrology/atmosphere.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <utility>

namespace heatwork::metrology {
namespace {

TEST(Atmosphere, metrology_P17_standard_atmosphere) {
  for (const auto& [altitude_m, hPa] : {std::pair{0.0, 1013.25},
                                        {500.0, 954.61},
                                        {1000.0, 898.76},
                                        {1500.0, 845.60},
                                        {2000.0, 795.01},
                                        {2500.0, 746.92},
                                        {3000.0, 701.21}}) {
    EXPECT_NEAR(standard_atmosphere_Pa(altitude_m) / 100.0, hPa, 0.02) << altitude_m;
  }
}

TEST(Atmosphere, FallsWithAltitudeAndEndsWhereTheLayerEnds) {
  double before = standard_atmosphere_Pa(-500.0);
  for (double z = -400.0; z <= 11000.0; z += 100.0) {
    EXPECT_LT(standard_atmosphere_Pa(z), before);
    before = standard_atmosphere_Pa(z);
  }
  EXPECT_THROW(standard_atmosphere_Pa(11000.5), std::domain_error);
  EXPECT_THROW(standard_atmosphere_Pa(-501.0), std::domain_error);
}

TEST(Dial, metrology_P19_dial_720_mmHg) {
  EXPECT_NEAR(absolute_of_dial_Pa(720.0, DialUnit::mmHg, standard_atmosphere_Pa(0.0)) / 100.0, 53.33, 0.05);
  EXPECT_THROW(absolute_of_dial_Pa(720.0, DialUnit::mmHg, standard_atmosphere_Pa(500.0)), std::domain_error);
}

TEST(Dial, AllUnitsMeanTheSameVacuum) {
  constexpr double ambient_Pa = 95000.0;
  const double expected = ambient_Pa - 50.0 * 100.0;
  EXPECT_NEAR(absolute_of_dial_Pa(50.0, DialUnit::mbar, ambient_Pa), expected, 1e-9);
  EXPECT_NEAR(absolute_of_dial_Pa(5.0, DialUnit::kPa, ambient_Pa), expected, 1e-9);
  EXPECT_NEAR(absolute_of_dial_Pa(100.0 * 5.0 / 95.0, DialUnit::percent_of_ambient, ambient_Pa), expected, 1e-9);
  EXPECT_NEAR(absolute_of_dial_Pa(5000.0 / 133.322387415, DialUnit::mmHg, ambient_Pa), expected, 1e-6);
  EXPECT_NEAR(absolute_of_dial_Pa(5000.0 / 3386.388640341, DialUnit::inHg, ambient_Pa), expected, 1e-6);
}

TEST(Dial, RefusesWhatCannotBe) {
  EXPECT_THROW(absolute_of_dial_Pa(-1.0, DialUnit::mbar, 101325.0), std::domain_error);
  EXPECT_THROW(absolute_of_dial_Pa(100.0, DialUnit::percent_of_ambient, 101325.0), std::domain_error);
  EXPECT_THROW(absolute_of_dial_Pa(1.0, DialUnit::mbar, 0.0), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
