#include "trade/reader.h"

#include <gtest/gtest.h>

#include "trade/mistake.h"

namespace heatwork::trade {
namespace {

using quantity::millibars;
using quantity::seconds;
using quantity::Temperature;

const char* const odd_program = R"(format = 1

[program]
name = "odd"
note = "Our own numbers."
standby = "397 °C"
entry = "808 °F"
drying_time = "6 min 40 s"
closing_time = "2:25"

[[program.heating]]
to = "817,4 °C"
rate = "99 °F/min"
hold = "65 s"

[program.vacuum]
from = "443 °C"
level = "57 mbar"
)";

std::string mistake_of(std::string_view text, const ReadingContext& context = {}) {
  try {
    (void)read_any(source_of("x.toml", text), context);
  } catch (const Mistake& mistake) {
    return mistake.sentence();
  }
  return {};
}

TEST(Reader, ReadsAProgramInAnyUnitsAndKeepsWhatWasTyped) {
  const auto program = read_noun<Program>(source_of("odd.toml", odd_program));
  EXPECT_EQ(program.name, "odd");
  EXPECT_EQ(program.entry.typed, "808 °F");
  EXPECT_NEAR(program.entry.value.celsius(), 431.11, 1e-9);
  EXPECT_EQ(program.closing_time.value, seconds(145));
  ASSERT_EQ(program.heating.size(), 1U);
  EXPECT_EQ(program.heating[0].rate.value, quantity::kelvins_per_minute(55));
  EXPECT_NEAR(program.heating[0].to.value.celsius(), 817.4, 1e-9);
  ASSERT_TRUE(program.vacuum.has_value());
  EXPECT_EQ(program.vacuum->level.value, millibars(57));
  EXPECT_FALSE(program.vacuum->to.has_value());
  EXPECT_TRUE(program.cooling.empty());
}

TEST(Reader, ADefaultHasNoPlaceAndATypedValueHasOne) {
  const auto program = read_noun<Program>(source_of("odd.toml", odd_program));
  EXPECT_FALSE(program.drying_opening.by_user());
  EXPECT_EQ(program.drying_opening.value.si(), 1.0);
  EXPECT_FALSE(program.preheat_hold.by_user());
  EXPECT_TRUE(program.drying_time.by_user());
  EXPECT_EQ(program.drying_time.place.line, 8);
  EXPECT_EQ(program.drying_time.place.column, 15);
  EXPECT_EQ(program.place.line, 3);
}

TEST(Reader, NonsenseFoundLaterPointsAtTheUsersLine) {
  const auto program = read_noun<Program>(source_of("odd.toml", odd_program));
  const Mistake later(program.heating[0].to.place, "to: this furnace ends at 801 °C");
  EXPECT_STREQ(later.what(), "odd.toml:12:6: to: this furnace ends at 801 °C\nto = \"817,4 °C\"\n     ^");
}

TEST(Reader, DialsCountFromTheAltitudeOrTheBarometer) {
  std::string text = odd_program;
  text.replace(text.find("57 mbar"), 7, "27 inHg");
  EXPECT_TRUE(mistake_of(text).starts_with("level: \"27 inHg\" counts down from the ambient pressure, which is not known here"));
  const auto program = read_noun<Program>(source_of("odd.toml", text), {millibars(1013.25), nullptr});
  EXPECT_NEAR(program.vacuum->level.value.si(), 101325 - 27 * 3386.388640341, 5.0 + 1e-6);
}

TEST(Reader, AFurnaceCountsItsDialFromItsOwnAltitude) {
  const char* const furnace = R"(format = 1
[furnace]
name = "high"
chamber_volume = "0.47 l"
maximum = "1187 °C"
altitude = "1500 m"
sensor_type = "S"
sensor_lag = "3.3 s"
[furnace.heating]
gain = "3.37 K/s"
loss = "0.00163 /s"
mains = "231 V"
nominal_mains = "230 V"
[furnace.natural_cooling]
shut = "0.00091 /s"
half_open = "0.0023 /s"
open = "0.0057 /s"
[furnace.pump]
time_constant = "7.3 s"
ultimate = "600 mmHg"
leak = "0.017 mbar/s"
release_time = "1.7 s"
gauge = "below ambient"
[furnace.ability]
temperature_step = "1 K"
rate_step = "1 K/min"
slowest_rate = "2 K/min"
fastest_rate = "139 K/min"
time_step = "5 s"
longest_hold = "59 min"
heating_stages = 3
cooling_stages = 3
vacuum_level_settable = true
waits_for_vacuum = false
hold_starts = "display reaches"
mains_cut = "stops"
)";
  EXPECT_TRUE(mistake_of(furnace).starts_with("ultimate: \"600 mmHg\" counts down"));
  const auto ambient = [](quantity::Length altitude) { return quantity::Pressure::si(altitude.si() == 1500 ? 84560 : 0); };
  const auto read = read_noun<Furnace>(source_of("high.toml", furnace), {std::nullopt, ambient});
  EXPECT_NEAR(read.pump.ultimate.value.si(), 84560 - 600 * 133.322387415, 5.0 + 1e-6);
  EXPECT_DOUBLE_EQ(read.sensor_lag.value.si(), 3.3);  // a constant of the furnace is kept as typed, not to the second
  EXPECT_FALSE(read.display_error.has_value());
  EXPECT_EQ(read.correction_keyed.value.si(), 0);
  EXPECT_EQ(read.ability.hold_starts.value, HoldStart::display_reaches);
}

TEST(Reader, AFiringMayLeaveItsChamberOut) {
  const auto firing = read_noun<Firing>(source_of("f.toml", R"(format = 1
[firing]
name = "first"
stage = "add-on"
tray = "light"
furnace = "corner"
program = "odd"
after = ["wash"]
[[firing.piece]]
piece = "crown-16"
was = "crown-16-bare"
)"));
  EXPECT_EQ(firing.stage.value, StageOfWork::add_on);
  EXPECT_NEAR(firing.chamber.room.value.celsius(), 22, 1e-9);
  EXPECT_DOUBLE_EQ(firing.chamber.room_humidity.value.si(), 0.5);
  EXPECT_FALSE(firing.chamber.cold.value);
  EXPECT_FALSE(firing.chamber.room.by_user());
  ASSERT_EQ(firing.after.size(), 1U);
  EXPECT_EQ(firing.after[0].place.line, 8);
  EXPECT_EQ(firing.pieces[0].was->value, "crown-16-bare");
  EXPECT_EQ(firing.pieces[0].place.value, PlaceOnTray::middle);
}

TEST(Reader, AMaterialKeepsRangeStandingAndSource) {
  const auto material = read_noun<Material>(source_of("m.toml", R"(format = 1
[material]
name = "odd-powder"
kind = "powder"
[material.properties]
density = { value = "2.42 g/cm3", low = "2350 kg/m3", high = "2450 kg/m3", standing = "measured", source = "own weighing" }
expansion = { standing = "none found", source = "searched in the bibliography" }
crystallisation_1_rate = { value = "-3.5 ln 1/s", low = "-4 ln 1/s", high = "-3 ln 1/s", standing = "computed", source = "own" }
emissivity = { value = 0.87, low = 0.8, high = 0.9, standing = "assumed", source = "own" }
)"));
  const auto* density = material.find("density");
  ASSERT_NE(density, nullptr);
  EXPECT_DOUBLE_EQ(density->value, 2420);
  EXPECT_EQ(density->typed, "2.42 g/cm3");
  EXPECT_EQ(density->standing, Standing::measured);
  EXPECT_EQ(density->place.line, 6);
  EXPECT_EQ(material.find("expansion")->standing, Standing::none_found);
  EXPECT_DOUBLE_EQ(material.find("crystallisation_1_rate")->value, -3.5);
  EXPECT_DOUBLE_EQ(material.find("emissivity")->high, 0.9);
  EXPECT_EQ(material.find("solidus"), nullptr);
}

TEST(Reader, WantsTheNounAskedFor) {
  EXPECT_THROW(
      {
        try {
          (void)read_noun<Furnace>(source_of("odd.toml", odd_program));
        } catch (const Mistake& mistake) {
          EXPECT_EQ(mistake.sentence(), "the file holds a program; a furnace is wanted here");
          throw;
        }
      },
      Mistake);
}

TEST(Heading, PassesOverFilesOfSomethingElse) {
  EXPECT_FALSE(heading_of(source_of("x.toml", "colour = \"red\"\n")).has_value());
  EXPECT_FALSE(heading_of(source_of("x.toml", "format = 1\n[lamp]\nname = \"x\"\n")).has_value());
  const auto heading = heading_of(source_of("odd.toml", odd_program));
  ASSERT_TRUE(heading.has_value());
  EXPECT_EQ(heading->noun, Noun::program);
  EXPECT_EQ(heading->name, "odd");
}

}  // namespace
}  // namespace heatwork::trade
