#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "firing/chamber_case.h"

namespace heatwork::firing {
namespace {

using namespace chamber_case;

TEST(Shifted, ChangesTheChamberAlone) {
  const ChamberHistory h = fired(program(), furnace());
  const ChamberHistory s = shifted(h, -7.5);
  EXPECT_EQ(s.time_s, h.time_s);
  EXPECT_EQ(s.display_C, h.display_C);
  EXPECT_EQ(s.pressure_Pa, h.pressure_Pa);
  for (std::size_t i = 0; i < h.time_s.size(); ++i) EXPECT_NEAR(s.chamber_C[i] - h.chamber_C[i], -7.5, 1e-12);
}

TEST(HoldChanged, PutsTimeInAtTheEndOfTheHold) {
  const ChamberHistory h = fired(program(), furnace());
  const ChamberHistory longer = with_hold_changed(h, 40);
  const double ends = time_of(h, ChamberEvent::hold_ends);
  EXPECT_NEAR(time_of(longer, ChamberEvent::hold_ends), ends + 40, 1e-9);
  EXPECT_NEAR(time_of(longer, ChamberEvent::hold_begins), time_of(h, ChamberEvent::hold_begins), 1e-12);
  EXPECT_NEAR(longer.time_s.back(), h.time_s.back() + 40, 1e-9);
  for (const double t : {ends, ends + 13, ends + 40}) EXPECT_NEAR(at(longer, longer.chamber_C, t), at(h, h.chamber_C, ends), 1e-9);
  EXPECT_NEAR(at(longer, longer.chamber_C, ends + 140), at(h, h.chamber_C, ends + 100), 1e-9);
  EXPECT_EQ(with_hold_changed(h, 0).chamber_C, h.chamber_C);
}

TEST(HoldChanged, CutBackEqualsTheProgramWithTheShorterHold) {
  trade::Program p = program();
  p.heating[0].hold = given(seconds(167));
  p.vacuum->hold_under_vacuum = given(seconds(11));
  const ChamberHistory h = fired(p, furnace());
  const ChamberHistory cut = with_hold_changed(h, -40);
  p.heating[0].hold = given(seconds(127));
  const ChamberHistory direct = fired(p, furnace());
  EXPECT_NEAR(cut.time_s.back(), direct.time_s.back(), 0.01);
  for (double t = 0; t < direct.time_s.back(); t += 3.1) {
    EXPECT_NEAR(at(cut, cut.chamber_C, t), at(direct, direct.chamber_C, t), 0.15) << t;
    EXPECT_NEAR(at(cut, cut.pressure_Pa, t), at(direct, direct.pressure_Pa, t), 700) << t;
  }
  for (std::size_t i = 1; i < cut.time_s.size(); ++i) EXPECT_GT(cut.time_s[i], cut.time_s[i - 1]);
}

TEST(HoldChanged, AReleaseCutOutMovesToTheSeamWithItsAir) {
  trade::Program p = program();
  p.vacuum->hold_under_vacuum = given(seconds(50));
  const ChamberHistory h = fired(p, furnace());
  const ChamberHistory cut = with_hold_changed(h, -40);
  const double seam = time_of(h, ChamberEvent::hold_ends) - 40;
  EXPECT_NEAR(time_of(cut, ChamberEvent::released), seam, 1e-9);
  EXPECT_NEAR(at(cut, cut.pressure_Pa, seam), 5800, 1);
  const double expected = 101325 + (5800 - 101325) * std::exp(-3.0 / 2.1);
  EXPECT_NEAR(at(cut, cut.pressure_Pa, seam + 3) / expected, 1, 0.01);
}

TEST(HoldChanged, NotMoreThanTheHoldCanBeCut) {
  const ChamberHistory h = fired(program(), furnace());
  EXPECT_NO_THROW(static_cast<void>(with_hold_changed(h, -67)));
  EXPECT_EQ(refusal([&] { static_cast<void>(with_hold_changed(h, -68)); }),
            "A hold of 67.0 s cannot be cut by 68.0 s; at most the whole hold.");
}

}  // namespace
}  // namespace heatwork::firing
