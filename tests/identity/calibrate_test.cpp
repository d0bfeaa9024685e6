// What a material calibrated by a trial firing through furnace and load must be: its identities, over every powder the demo lab fires.
#include <gtest/gtest.h>

#include <cmath>

#include "demo_firing.h"
#include "firing/calibrated_range.h"
#include "firing/piece_life.h"
#include "firing/rehearsal.h"
#include "firing/trial.h"

namespace heatwork {
namespace {

using firing::Trial;
using firing::TrialFound;
using tests::demo_firing;

struct Case {
  const char* stem;
  std::size_t piece;
};

/// Every firing of the demo lab that is of a powder or glaze.
class TrialOf : public testing::TestWithParam<Case> {
 protected:
  static Trial trial() {
    Trial made;
    made.firing = demo_firing(GetParam().stem);
    made.piece = GetParam().piece;
    const firing::Stock stock{made.firing.materials, made.firing.liquids, made.firing.supports};
    for (const firing::Point& point : firing::points_of(made.firing.pieces[made.piece], stock))
      if (point.decides && point.powder) made.material = point.material->name;
    return made;
  }
};

INSTANTIATE_TEST_SUITE_P(firings, TrialOf,
                         testing::Values(Case{"firing", 0}, Case{"firing", 1}, Case{"correction-firing", 0}, Case{"glaze-firing", 0},
                                         Case{"stain-firing", 0}, Case{"metal-ceramic-firing", 0}, Case{"thick-build-up", 0}),
                         [](const auto& of) {
                           std::string name = of.param.stem;
                           for (char& letter : name)
                             if (letter == '-') letter = '_';
                           return name + "_" + std::to_string(of.param.piece + 1);
                         });

firing::PieceResult fired(const trade::ResolvedFiring& firing, std::size_t piece) {
  firing::RehearseOptions options;
  options.compare = false;
  return firing::rehearse(firing, options).firing.pieces.at(piece);
}

/// The same program with every temperature of it so much higher.
void raise(trade::Program& program, double by_K) {
  const auto higher = [by = quantity::kelvins(by_K)](trade::Given<quantity::Temperature>& at) { at.value = at.value + by; };
  higher(program.standby);
  higher(program.entry);
  for (trade::HeatingStage& stage : program.heating) higher(stage.to);
  for (trade::CoolingStage& stage : program.cooling) higher(stage.to);
  if (program.vacuum) higher(program.vacuum->from);
  if (program.vacuum && program.vacuum->to) higher(*program.vacuum->to);
  if (program.opening_temperature) higher(*program.opening_temperature);
  if (program.unloading_temperature) higher(*program.unloading_temperature);
}

void set_display_error(trade::Furnace& furnace, double error_K) {
  if (!furnace.display_error) furnace.display_error.emplace();
  furnace.display_error->error.value = quantity::kelvins(error_K);
}

/// How far two glasses' nominal firings lie apart.
double apart_K(const TrialFound& one, const TrialFound& other) {
  return one.nominal_C - other.nominal_C;
}

TEST_P(TrialOf, rehearsed_with_the_glass_found_does_the_work_of_a_nominal_firing) {
  Trial of = trial();
  const TrialFound found = firing::read_trial(of);
  of.firing.materials.at(of.material) = firing::with_glass(of.firing.materials.at(of.material), found.vft);
  const firing::PieceResult again = fired(of.firing, of.piece);
  RecordProperty("work over wanted", std::to_string(again.deciding_least / found.wanted));
  EXPECT_NEAR(again.deciding_least / found.wanted, 1.0, 0.005);
}

/// The piece is hotter by a little more than the chamber, because it follows the faster the hotter it is; the glass follows the piece.
void expect_moved(const TrialFound& there, const TrialFound& here, double chamber_K) {
  EXPECT_NEAR(apart_K(there, here), there.point.peak_C - here.point.peak_C, 0.1 * std::abs(chamber_K)) << chamber_K;
  EXPECT_GE(apart_K(there, here) / chamber_K, 1.0) << chamber_K;
  EXPECT_LE(apart_K(there, here) / chamber_K, 1.15) << chamber_K;
}

TEST_P(TrialOf, a_display_known_to_read_high_does_not_move_the_glass) {
  Trial plain = trial();
  set_display_error(plain.firing.furnace, 0);
  const TrialFound here = firing::read_trial(plain);
  for (const double error_K : {12.0, -9.0}) {
    Trial high = plain;
    set_display_error(high.firing.furnace, error_K);
    raise(high.firing.program, error_K);  // the same true chamber
    EXPECT_NEAR(apart_K(firing::read_trial(high), here), 0, 0.1) << error_K;
  }
}

TEST_P(TrialOf, a_display_not_known_to_read_high_moves_the_glass_by_that) {
  Trial plain = trial();
  set_display_error(plain.firing.furnace, 0);
  const TrialFound here = firing::read_trial(plain);
  for (const double error_K : {12.0, -9.0}) {
    Trial taken_for_true = plain;
    raise(taken_for_true.firing.program, error_K);
    expect_moved(firing::read_trial(taken_for_true), here, error_K);
    Trial known = plain;
    set_display_error(known.firing.furnace, error_K);
    expect_moved(firing::read_trial(known), here, -error_K);
  }
}

TEST_P(TrialOf, what_looked_like_so_many_kelvin_too_much_fires_so_many_lower) {
  Trial of = trial();
  const TrialFound right = firing::read_trial(of);
  for (const double degree_K : {10.0, -10.0}) {
    of.degree_K = degree_K;
    EXPECT_NEAR(apart_K(firing::read_trial(of), right), -degree_K, 0.5) << degree_K;
  }
}

TEST_P(TrialOf, a_heavier_tray_gave_the_piece_less) {
  Trial of = trial();
  const TrialFound light = firing::read_trial(of);
  of.firing.tray.mass->value = 3.0 * of.firing.tray.mass->value;
  EXPECT_LT(apart_K(firing::read_trial(of), light), -0.2);
}

TEST_P(TrialOf, a_calibrated_glass_calibrated_again_stays) {
  Trial of = trial();
  const TrialFound once = firing::read_trial(of);
  trade::Material& material = of.firing.materials.at(of.material);
  material = firing::with_glass(material, once.vft);
  material.properties.at("nominal_temperature").value = once.nominal_C;
  EXPECT_NEAR(firing::read_trial(of).shift_K, 0, 0.02);
}

TEST_P(TrialOf, the_range_in_decades_moves_the_firing_temperature_by_the_range_in_kelvin) {
  const Trial of = trial();
  const TrialFound found = firing::read_trial(of);
  const trade::Material material = firing::with_glass(of.firing.materials.at(of.material), found.vft);
  for (const double way : {-1.0, 1.0}) {
    trade::ResolvedFiring stiffer = of.firing;
    physics::Vft vft = found.vft;
    vft.A += way * firing::decades_for_K(material, firing::trial_within_K);
    stiffer.materials.at(of.material) = firing::with_glass(material, vft);
    const double less = fired(stiffer, of.piece).deciding_least;
    Trial seen = of;  // what a piece so much too little, or too much, fired would have told
    seen.degree_K = way * firing::trial_within_K;
    trade::ResolvedFiring moved = of.firing;
    moved.materials.at(of.material) = firing::with_glass(material, firing::read_trial(seen).vft);
    EXPECT_NEAR(std::log(fired(moved, of.piece).deciding_least / found.wanted) / std::log(less / found.wanted), -1.0, 0.1);
  }
}

}  // namespace
}  // namespace heatwork
