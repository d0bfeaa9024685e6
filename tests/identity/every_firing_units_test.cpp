// A program typed in other units, or said in another way, is the same firing, for every class, program, furnace and tray that ships.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <iterator>
#include <regex>

#include "every_firing.h"
#include "physics/crystallisation.h"
#include "physics/powder.h"

namespace heatwork::tests {
namespace {

using reference::Evidence;

std::string text_of_program(const std::string& name) {
  const auto path = std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / "demo" / ("program-" + name + ".toml");
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string replaced(const std::string& text, const std::regex& what, const std::function<std::string(const std::smatch&)>& by) {
  std::string out;
  auto from = text.cbegin();
  for (std::sregex_iterator found(text.begin(), text.end(), what), end; found != end; ++found) {
    out.append(from, (*found)[0].first);
    out += by(*found);
    from = (*found)[0].second;
  }
  return out.append(from, text.cend());
}

/// The same program in the units of another lab: °F, °F/min, minutes with a fraction or seconds, kPa.
std::string in_other_units(std::string text) {
  const auto number = [](const std::smatch& found, std::size_t group) {
    return found[group].matched ? std::stod(found[group].str()) : 0.0;
  };
  text = replaced(text, std::regex("\"(\\d+) °C\""), [&](const auto& m) { return fmt::format("\"{:.1f} °F\"", number(m, 1) * 1.8 + 32); });
  text =
      replaced(text, std::regex("\"(\\d+) K/min\""), [&](const auto& m) { return fmt::format("\"{:.1f} °F/min\"", number(m, 1) * 1.8); });
  text = replaced(text, std::regex("\"(\\d+) mbar\""), [&](const auto& m) { return fmt::format("\"{:.1f} kPa\"", number(m, 1) / 10); });
  return replaced(text, std::regex("\"(?:(\\d+) min)? ?(?:(\\d+) s)?\""), [&](const auto& m) {
    const double seconds = 60 * number(m, 1) + number(m, 2);
    return m[1].matched ? fmt::format("\"{:.0f} s\"", seconds) : fmt::format("\"{:.10g} min\"", seconds / 60);
  });
}

/// All numbers of a firing that a report may carry.
std::vector<double> numbers_of(const Fired& fired) {
  const firing::PieceResult& piece = fired.piece();
  std::vector<double> all = {piece.peak_display_C, piece.peak_surface_C, piece.peak_core_C};
  const firing::SectionResult& section = piece.sections.front();
  all.insert(all.end(), {section.water_at_close_percent, section.dry_s, section.burst_index});
  for (const firing::PointResult& point : piece.points) {
    all.insert(all.end(), {point.deciding, point.porosity_percent, point.rounding_um, point.half_sealed_s, point.crystal_um});
    if (!point.fraction.empty()) all.push_back(point.fraction.back());
  }
  return all;
}

double apart(const std::vector<double>& one, const std::vector<double>& other) {
  double worst = one.size() == other.size() ? 0 : INFINITY;
  for (std::size_t i = 0; i < std::min(one.size(), other.size()); ++i)
    worst = std::max(worst, std::abs(one[i] - other[i]) / std::max(1.0, std::abs(one[i])));
  return worst;
}

class EveryWord : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(classes, EveryWord, testing::ValuesIn(Shipped::all().classes), test_name);

TEST_P(EveryWord, other_units_are_the_same_firing) {
  Worst worst;
  for (const Combination& of : Shipped::all().sample_of_class(GetParam())) {
    const trade::ResolvedFiring as_typed = Shipped::all().firing(of);
    trade::ResolvedFiring other = as_typed;
    const std::string text = in_other_units(text_of_program(of.program));
    for (const char* unit : {" °C", "K/min", "mbar"}) ASSERT_EQ(text.find(unit), std::string::npos) << text;
    other.program = trade::read_noun<trade::Program>(trade::source_of("in other units", text));
    const Fired one = fired(as_typed), two = fired(other);
    ASSERT_EQ(one.impossible, two.impossible);
    if (!one.impossible) worst.meet(apart(numbers_of(one), numbers_of(two)), of.name());
  }
  Evidence row("a program in °F, °F/min, seconds or parts of a minute and kPa against °C, K/min, min and mbar, of the number");
  record(row, worst, 1e-12);
}

/// The program with the hold at the top cut into two stages; the second may be of no length.
trade::Program with_hold_in_two(trade::Program program, double first_share) {
  std::size_t top = 0;
  for (std::size_t i = 1; i < program.heating.size(); ++i)
    if (program.heating[i].to.value > program.heating[top].to.value) top = i;
  trade::HeatingStage rest = program.heating[top];
  const quantity::Duration hold = rest.hold.value;
  program.heating[top].hold.value = first_share * hold;
  rest.hold.value = hold - first_share * hold;
  program.heating.insert(program.heating.begin() + static_cast<std::ptrdiff_t>(top) + 1, rest);
  return program;
}

double log_ratio(const Fired& one, const Fired& other) {
  double worst = 0;
  for (std::size_t i = 0; i < one.piece().points.size(); ++i)
    if (one.piece().points[i].decides)
      worst = std::max(worst, std::abs(std::log(one.piece().points[i].deciding / other.piece().points[i].deciding)));
  return worst;
}

TEST_P(EveryWord, a_hold_in_two_stages_does_the_same_work) {
  Worst worst;
  for (const Combination& of : Shipped::all().sample_of_class(GetParam())) {
    trade::ResolvedFiring whole = Shipped::all().firing(of);
    whole.furnace.heating.overshoot.value = quantity::kelvins(0);  // a control that overshoots does so again at every stage
    whole.program.vacuum.reset();                                  // when air comes back belongs to a stage, and thin air heats less
    const Fired one = fired(whole);
    if (one.impossible) continue;
    for (const double share : {0.4, 1.0}) {
      trade::ResolvedFiring cut = whole;
      cut.program = with_hold_in_two(whole.program, share);
      const Fired two = fired(cut);
      ASSERT_FALSE(two.impossible) << *two.impossible;
      worst.meet(log_ratio(one, two), fmt::format("{:.1f} of the hold first, {}", share, of.name()));
    }
  }
  Evidence row("ln of heat-work or z with the hold cut into two stages, or a stage of no length added, against one stage");
  record(row, worst, 1e-5);
}

TEST_P(EveryWord, a_chamber_told_in_more_rows_is_the_same_firing) {
  Worst worst;
  for (const Combination& of : Shipped::all().sample_of_class(GetParam())) {
    const trade::ResolvedFiring firing = Shipped::all().firing(of);
    const Fired one = fired(firing);
    if (one.impossible) continue;
    firing::ChamberHistory more = one.chamber;
    for (std::size_t i = more.time_s.size(); --i > 0;) {  // a row in the middle of each two
      for (std::vector<double>* column : {&more.time_s, &more.asked_C, &more.display_C, &more.chamber_C, &more.pressure_Pa, &more.opening})
        column->insert(column->begin() + static_cast<std::ptrdiff_t>(i), 0.5 * ((*column)[i - 1] + (*column)[i]));
      more.phase.insert(more.phase.begin() + static_cast<std::ptrdiff_t>(i), more.phase[i]);
    }
    worst.meet(log_ratio(one, fired_in(firing, more)), of.name());
  }
  Evidence row("ln of heat-work or z in a chamber told in twice the rows, on the same straight lines");
  record(row, worst, 1e-5);
}

/// Holds one after the other with jumps between: a history whose work the integral alone decides.
struct Holds {
  std::vector<double> times_s, kelvin;
};
Holds holds_of(const std::vector<std::pair<double, double>>& holds) {
  Holds made;
  double at_s = 0;
  for (const auto& [length_s, kelvin] : holds) {
    made.times_s.insert(made.times_s.end(), {at_s, at_s + length_s});
    made.kelvin.insert(made.kelvin.end(), {kelvin, kelvin});
    at_s += length_s;
  }
  return made;
}

RC_GTEST_PROP(AnyOrder, of_holds_does_the_same_work, ()) {
  const auto& shipped = Shipped::all();
  const std::string name = *rc::gen::elementOf(shipped.classes);
  std::vector<std::pair<double, double>> holds;
  const int count = *rc::gen::inRange(2, 9);
  for (int i = 0; i < count; ++i) holds.emplace_back(*rc::gen::inRange(1, 3000), 0.5 * *rc::gen::inRange(1400, 2400));
  std::vector<std::pair<double, double>> other = holds;
  std::rotate(other.begin(), other.begin() + *rc::gen::inRange(1, count), other.end());
  if (*rc::gen::arbitrary<bool>()) std::reverse(other.begin(), other.end());
  const Holds one = holds_of(holds), two = holds_of(other);
  if (firing::is_viscous(shipped.materials.at(name))) {
    const physics::PowderProperties powder = firing::powder_of(shipped.materials.at(name));
    const double a = physics::powder_work(powder, one.times_s, one.kelvin).heat_work;
    RC_ASSERT(std::abs(physics::powder_work(powder, two.times_s, two.kelvin).heat_work / a - 1) < 1e-12);
  } else {
    const physics::CrystallisationProperties block = firing::crystallisation_of(shipped.materials.at(name));
    physics::CrystallisationState a = physics::start_crystallisation(block), b = a;
    physics::advance_crystallisation(block, a, one.times_s, one.kelvin);
    physics::advance_crystallisation(block, b, two.times_s, two.kelvin);
    // A step fed by one still going on depends on the path; the first that goes on by itself does not.
    const std::size_t step = std::isfinite(a.z.front()) ? 0 : a.z.size() - 1;
    RC_ASSERT(std::abs(b.z[step] / a.z[step] - 1) < 1e-12);
  }
}

/// A program of any numbers a panel takes, in the order a firing needs them.
trade::Program any_program(trade::Program program) {
  const auto at = [](int from, int to) { return quantity::Temperature::celsius(*rc::gen::inRange(from, to)); };
  program.vacuum.reset();
  program.cooling.clear();
  program.heating.resize(1);
  program.entry.value = at(300, 560);
  program.standby.value = program.entry.value;
  program.drying_time.value = quantity::seconds(*rc::gen::inRange(0, 600));
  program.closing_time.value = quantity::seconds(*rc::gen::inRange(10, 240));
  program.preheat_hold.value = quantity::seconds(*rc::gen::inRange(0, 60));
  trade::HeatingStage& stage = program.heating.front();
  stage.to.value = at(600, 960);
  stage.rate.value = quantity::HeatingRate::si(*rc::gen::inRange(5, 95) / 60.0);
  stage.hold.value = quantity::seconds(*rc::gen::inRange(0, 900));
  program.opening_temperature->value = at(450, 590);
  program.unloading_temperature->value = at(250, 290);
  return program;
}

RC_GTEST_PROP(AnyProgram, keeps_energy_and_water_and_rises_with_heat, ()) {
  const auto& shipped = Shipped::all();
  const Combination of = *rc::gen::elementOf(shipped.of_class(*rc::gen::elementOf(shipped.classes)));
  trade::ResolvedFiring firing = shipped.firing(of);
  firing.program = any_program(firing.program);
  const Fired done = fired(firing);
  if (done.impossible) {
    RC_TAG(std::string("impossible"));
    RC_ASSERT(!done.impossible->empty());
    return;
  }
  // No program that ships strays beyond 0.1 % (every_firing_laws_test); one made up may at the usual steps, never at finer ones.
  RC_ASSERT(std::abs(done.result.energy_residual_share) < 2e-3);
  const Fired finely = fired_in(firing, done.chamber, {0.005, 20, 20, 0.04, 1e-4, false});
  RC_ASSERT(std::abs(finely.result.energy_residual_share) < 1e-3);
  const physics::SectionHistory& section = done.load.sections.front();
  for (std::size_t row = 1; row < section.water_kg_per_m2.size(); ++row)
    RC_ASSERT(section.water_kg_per_m2[row] <= section.water_kg_per_m2[row - 1] && section.water_kg_per_m2[row] >= 0);
  const Fired hotter = fired_in(firing, firing::shifted(done.chamber, 5));
  RC_ASSERT(hotter.piece().deciding_least >= done.piece().deciding_least);
  RC_ASSERT(hotter.piece().deciding_greatest >= done.piece().deciding_greatest);
}

}  // namespace
}  // namespace heatwork::tests
