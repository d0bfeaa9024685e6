// The identities of the comparison with the maker's firing, for every class of material under every program that ships.
#include <gtest/gtest.h>

#include <cmath>

#include "every_firing.h"
#include "firing/rehearsal.h"

namespace heatwork::tests {
namespace {

using reference::Evidence;

class EveryComparison : public testing::TestWithParam<std::string> {
 protected:
  struct Own {
    Combination of;
    trade::ResolvedFiring firing;
  };
  /// The maker's own firings of the class in the true furnace.
  static std::vector<Own> makers_own_firings() {
    std::vector<Own> all;
    for (const Combination& of : Shipped::all().few_of_class(GetParam())) {
      trade::ResolvedFiring own = makers_own(Shipped::all().firing(of));
      if (!fired(own).impossible) all.push_back({of, std::move(own)});
    }
    return all;
  }
};

INSTANTIATE_TEST_SUITE_P(classes, EveryComparison, testing::ValuesIn(Shipped::all().classes), test_name);

firing::Comparison compared(const trade::ResolvedFiring& firing) {
  firing::RehearseOptions options;
  options.workers = 1;
  return firing::rehearse(firing, options).compared.at(0);
}

TEST_P(EveryComparison, the_makers_own_firing_is_no_different) {
  Worst shift, hold;
  for (const Own& own : makers_own_firings()) {
    const firing::Comparison same = compared(own.firing);
    ASSERT_TRUE(same.shift_K && same.hold_s) << own.of.name();
    shift.meet(*same.shift_K, own.of.name());
    hold.meet(*same.hold_s, own.of.name());
  }
  Evidence row("the maker's own firing compared with itself", "K");
  record(row, shift, 0.1);
  row.in("s");
  record(row, hold, 1);
}

TEST_P(EveryComparison, a_display_that_reads_high_and_nothing_else_takes_that_away) {
  Worst worst;
  bool high = true;
  for (Own& own : makers_own_firings()) {
    const double error_K = high ? 12 : -9;
    high = !high;
    if (!own.firing.furnace.display_error) own.firing.furnace.display_error.emplace();
    own.firing.furnace.display_error->error.value = quantity::kelvins(error_K);
    const firing::Comparison less = compared(own.firing);
    ASSERT_TRUE(less.shift_K) << own.of.name();
    worst.meet(*less.shift_K + error_K, own.of.name());
  }
  Evidence row("a display that reads e high against a shift of -e", "K");
  record(row, worst, 0.5);
}

TEST_P(EveryComparison, a_hold_forty_seconds_shorter_is_found_as_such) {
  Worst worst;
  for (Own& own : makers_own_firings()) {
    trade::Program& program = own.firing.program;
    auto highest = program.heating.begin();
    for (auto stage = program.heating.begin(); stage != program.heating.end(); ++stage)
      if (stage->to.value > highest->to.value) highest = stage;
    if (highest->hold.value.si() < 45) continue;
    highest->hold.value = highest->hold.value - quantity::seconds(40);
    if (program.vacuum && program.vacuum->hold_under_vacuum.value > highest->hold.value)
      program.vacuum->hold_under_vacuum.value = highest->hold.value;
    const firing::Comparison shorter = compared(own.firing);
    ASSERT_TRUE(shorter.hold_s) << own.of.name();
    worst.meet(*shorter.hold_s + 40, own.of.name());
  }
  Evidence row("a hold 40 s shorter against -40 s", "s");
  record(row, worst, 1);
}

TEST_P(EveryComparison, a_heavier_tray_gives_less) {
  double nearest_K = -1e9;
  for (Own& own : makers_own_firings()) {
    own.firing.tray.mass->value = 3.0 * own.firing.tray.mass->value;
    const firing::Comparison heavier = compared(own.firing);
    ASSERT_TRUE(heavier.shift_K) << own.of.name();
    EXPECT_LT(*heavier.shift_K, 0) << own.of.name();
    nearest_K = std::max(nearest_K, *heavier.shift_K);
  }
  RecordProperty("nearest_to_zero_K", std::to_string(nearest_K));
}

}  // namespace
}  // namespace heatwork::tests
