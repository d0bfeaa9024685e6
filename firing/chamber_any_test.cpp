// Laws that hold for any furnace and program that can be run at all: drawn by a fixed seed, among them the odd and the ugly.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <stdexcept>

#include "firing/chamber_case.h"

namespace heatwork::firing {
namespace {

using namespace chamber_case;

/// Draws furnaces and programs; integers scaled, so that every machine draws the same.
class Draw {
 public:
  double in(double low, double high) { return low + (high - low) * (static_cast<double>(engine_()) / 4294967295.0); }
  bool one_in(unsigned n) { return engine_() % n == 0; }

  trade::Furnace any_furnace() {
    trade::Furnace f = furnace();
    f.sensor_lag = given(seconds(one_in(5) ? 0 : in(0, 15)));
    f.heating.gain = given(HeatingRate::si(in(1.2, 4)));
    f.heating.loss = given(Frequency::si(in(0.0008, 0.003)));
    f.heating.overshoot = given(kelvins(one_in(4) ? 0 : in(0, 6)));
    const double shut = in(0.0005, 0.002);
    f.natural_cooling = {given(Frequency::si(shut)), given(Frequency::si(2 * shut)), given(Frequency::si(in(3, 10) * shut))};
    f.pump.time_constant = given(seconds(in(3, 40)));
    f.pump.leak = given(quantity::PressureRate::si(one_in(2) ? 0 : in(0, 100)));
    f.ability.vacuum_level_settable = given(one_in(2));
    f.ability.waits_for_vacuum = given(one_in(2));
    f.ability.hold_starts = given(one_in(2) ? trade::HoldStart::display_reaches : trade::HoldStart::asked_reaches);
    f.display_error = trade::DisplayError{given(kelvins(in(-30, 30))), given(kelvins(3)), "drawn"};
    return f;
  }

  trade::Program any_program() {
    trade::Program p = program();
    double to = in(200, 600);
    p.entry = given(Temperature::celsius(to));
    p.drying_time = given(seconds(one_in(3) ? 0 : in(0, 600)));
    p.closing_time = given(seconds(one_in(3) ? 0 : in(0, 200)));
    p.heating.clear();
    for (int stage = 0; stage < 4 && !one_in(5); ++stage) {
      to += one_in(6) ? 0 : one_in(4) ? in(0, 3) : in(0, 200);
      p.heating.push_back(
          {given(Temperature::celsius(to)), given(kelvins_per_minute(in(2, 140))), given(seconds(one_in(3) ? 0 : in(0, 300))), {}});
    }
    p.vacuum->from = given(Temperature::celsius(in(200, to)));
    p.vacuum->to.reset();
    if (!one_in(3)) p.vacuum->to = given(Temperature::celsius(in(p.vacuum->from.value.celsius() + 1, to + 60)));
    for (int stage = 0; stage < 3 && !one_in(3); ++stage) {
      to -= in(0, 120);
      p.cooling.push_back({given(Temperature::celsius(to)), one_in(2) ? std::nullopt : std::optional(given(kelvins_per_minute(in(1, 100)))),
                           given(Fraction::si(one_in(2) ? 0 : in(0, 1))), given(seconds(one_in(2) ? 0 : in(0, 100)))});
    }
    return p;
  }

 private:
  std::mt19937 engine_{20251};
};

/// Fastest the true chamber can move at all: full power from cold, or wide open from hot.
double fastest(const trade::Furnace& f) {
  return std::max(f.heating.gain.value.si(), 1200 * f.natural_cooling.open.value.si());
}

void expect_lawful(const ChamberHistory& h, const trade::Furnace& f) {
  const double lag = f.sensor_lag.value.si();
  const double error = f.display_error->error.value.si();
  for (std::size_t i = 1; i < h.time_s.size(); ++i) {
    const double dt = h.time_s[i] - h.time_s[i - 1];
    ASSERT_GT(dt, 0);
    ASSERT_TRUE(std::isfinite(h.chamber_C[i]) && std::isfinite(h.display_C[i]) && std::isfinite(h.asked_C[i]));
    ASSERT_GT(h.pressure_Pa[i], 0);
    ASSERT_LE(h.pressure_Pa[i], h.ambient_Pa + 1e-6);
    ASSERT_GE(h.opening[i], -1e-9);
    ASSERT_LE(h.opening[i], 1 + 1e-9);
    ASSERT_LE(std::abs(h.chamber_C[i] - h.chamber_C[i - 1]), fastest(f) * dt + 1e-3) << "at " << h.time_s[i] << " s";
    const double drive = 0.5 * (h.chamber_C[i] + h.chamber_C[i - 1] - h.display_C[i] - h.display_C[i - 1]) + error;
    ASSERT_NEAR(lag * (h.display_C[i] - h.display_C[i - 1]), drive * dt, 0.1 * dt + 1e-3) << "sensor at " << h.time_s[i] << " s";
  }
  for (std::size_t i = 1; i < h.moments.size(); ++i) ASSERT_GE(h.moments[i].time_s, h.moments[i - 1].time_s);
}

TEST(AnyProgram, GivesALawfulHistoryOrASentence) {
  Draw draw;
  int run = 0;
  for (int n = 0; n < 1500; ++n) {
    const trade::Furnace f = draw.any_furnace();
    const trade::Program p = draw.any_program();
    SCOPED_TRACE(n);
    try {
      const ChamberHistory h = fired(p, f);
      expect_lawful(h, f);
      if (HasFatalFailure()) return;
      ++run;
      if (h.find(ChamberEvent::hold_begins) == nullptr) continue;
      const double hold = time_of(h, ChamberEvent::hold_ends) - time_of(h, ChamberEvent::hold_begins);
      for (const double change : {-0.7 * hold, 33.0}) {
        const ChamberHistory changed = with_hold_changed(h, change);
        for (std::size_t i = 1; i < changed.time_s.size(); ++i) ASSERT_GT(changed.time_s[i], changed.time_s[i - 1]);
        EXPECT_NEAR(changed.time_s.back(), h.time_s.back() + change, 1e-6);
      }
    } catch (const std::domain_error& error) {
      EXPECT_GT(std::string(error.what()).size(), 20U);
    }
  }
  EXPECT_GT(run, 1000);
}

}  // namespace
}  // namespace heatwork::firing
