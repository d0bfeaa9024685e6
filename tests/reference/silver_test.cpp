// Silver as a flag of what a sample has reached.
#include "metrology/silver.h"

#include <gtest/gtest.h>

#include <array>

#include "evidence_row.h"

namespace heatwork {
namespace {

TEST(sintering, F3) {
  reference::Evidence evidence("ITS-90 fixed point of silver; with oxygen computed by cryoscopy", "C");
  evidence.near(metrology::silver_melting_C(0.0), 961.78, 0.1);
  evidence.near(metrology::silver_melting_C(0.2095), 951.6, 0.1);
  const std::array<double, 3> just_short = {800.0, 961.68, 700.0}, just_past = {800.0, 961.88, 700.0};
  EXPECT_FALSE(metrology::reaches_melting(just_short, metrology::silver_melting_C(0.0)));
  EXPECT_TRUE(metrology::reaches_melting(just_past, metrology::silver_melting_C(0.0)));
}

}  // namespace
}  // namespace heatwork
