#include <gtest/gtest.h>

#include "trade/check.h"
#include "trade/edit.h"
#include "trade/keyed_values.h"
#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/samples.h"
#include "trade/writer.h"

namespace heatwork::trade {
namespace {

// As checks were written before they held readings.
const std::string plain = R"(format = 1

[check]
name = "window-silver-2026-11"
furnace = "window"
of = "temperature"
good = true
error = "-3.7 K"
standard_uncertainty = "1.9 K"
reference = "silver-wire-3"
method = "three firings with wire"
at = "2026-11-09T06:53:00Z"
person = "hs"
next = "2027-02-09"
)";

// A value of every key beside those.
const std::string readings = R"(finished = true
cannot_tell = false
as_left = true
after_repair = "new muffle"
limit = "5 K"
correction_keyed = "-3 K"
decision = "allowed for"
keyed_after = "-3 K"
error_at = "959.6 °C"
verdict = "leak"
spread = "7 K"
gain = "153.7 K/min"
gain_sd = "2.1 K/min"
loss = "0.0013 /s"
loss_sd = "0.0001 /s"
pump_time_constant = "17.3 s"
pump_time_constant_sd = "0.4 s"
ultimate = "23.71 mbar"
ultimate_sd = "0.3 mbar"
leak = "0.013 mbar/s"
leak_sd = "0.002 mbar/s"

[check.wire]
metal = "silver"
gas = "vacuum"
vented_hot = false
pressure = "47 mbar"
purity = "99.99 %"
diameter = "0.25 mm"
hold = "2 min"
rate = "27 K/min"
criterion = "edges rounded"
melting = "959 °C"
melting_u = "0.8 K"
stated_in = "sheet of the wire"

[[check.trials]]
display = "960 °C"
melted = true
at = "2026-11-09T05:41:00Z"

[check.probe]
type = "S"
tolerance_class = 2
correction = "0.7 K"
correction_u = "0.3 K"
certified = "2026-02-17"
use = "used"
used_hours = "240 h"
indicator_u = "0.6 K"

[[check.compared]]
display = "800 °C"
emf = "7.161 mV"
cold_junction = "23.5 °C"
at = "2026-11-09T05:41:00Z"

[[check.map]]
where = "middle"
looked_like = "0 K"

[[check.map]]
where = "back"
lightness = 71.3
redness = 1.1
yellowness = 17.9

[check.vacuum]
gauge = "percent of ambient"
barometer = "967 mbar"
pump_warm = true
room = "21 °C"
chamber = "430 °C"
pump_down = ["0 s, 0 %", "30.5 s, 72.5 %"]
rise = ["0 s, 20 mbar", "1 min 30 s, 23.04 mbar"]

[check.heating_run]
mains = "227 V"
room = "21 °C"
capped = false
asked_rate = "150 K/min"
samples = ["0 s, 100 °C", "5 s, 109.7 °C"]
)";

Check read(const std::string& text) {
  return read_noun<Check>(source_of("check.toml", text));
}

TEST(CheckReadings, ACheckWithoutAnyIsReadAndWrittenAsItStood) {
  const Check check = read(plain);
  EXPECT_EQ(write_noun(check), plain);
  EXPECT_TRUE(is_finished(check));
  EXPECT_FALSE(is_undecided(check));
}

TEST(CheckReadings, OfEveryKindAreReadAndWrittenTheSame) {
  EXPECT_EQ(write_noun(read(plain + readings)), plain + readings);
}

TEST(CheckReadings, AreTypedOnOneLineAsTheyAreShownOnOne) {
  const Check check = read(plain + "\n[check.vacuum]\nrise = [\"0 s, 20 mbar\", \"1 min 30 s, 23.04 mbar\"]\n");
  std::string shown;
  for (const auto& value : keyed_values(check))
    if (value.key == "vacuum.rise") shown = value.text;
  EXPECT_EQ(shown, "0 s, 20 mbar; 1 min 30 s, 23.04 mbar");
  EXPECT_EQ(write_noun(read(edited_text(check, {{"vacuum.rise", shown}}))), write_noun(check));
}

TEST(CheckReadings, KeepASampleAsItWasReadWhateverItsSpelling) {
  const auto comma = read_gauge_sample("0,5 s, 300,25mbar");
  ASSERT_TRUE(comma) << comma.error();
  EXPECT_DOUBLE_EQ(comma->after.si(), 0.5);
  EXPECT_DOUBLE_EQ(comma->reading, 300.25);
  EXPECT_EQ(write_sample(*comma), "0.5 s, 300.25 mbar");
  const auto dial = read_gauge_sample("1:30, 720 mmHg");
  ASSERT_TRUE(dial) << dial.error();
  EXPECT_EQ(write_sample(*dial), "1 min 30 s, 720 mmHg");
  const auto fahrenheit = read_temperature_sample("5 s, 1562 °F");
  ASSERT_TRUE(fahrenheit) << fahrenheit.error();
  EXPECT_EQ(write_sample(*fahrenheit), "5 s, 850 °C");
  EXPECT_EQ(read_gauge_sample("5 s, -3 mbar").error(), "\"5 s, -3 mbar\": no vacuum gauge shows that; allowed is 0 to 200000 of its unit");
  EXPECT_EQ(read_temperature_sample("5 s, 2850 °C").error(), "\"5 s, 2850 °C\" is out of range; allowed is -50 °C to 1800 °C");
  EXPECT_EQ(read_gauge_sample("25 h, 3 mbar").error(),
            "\"25 h, 3 mbar\" lies more than a day after the start; a record is at most 1 d long");
}

TEST(CheckReadings, ABarometerOfMercuryCountsUpwardsAndADialDoesNot) {
  const auto barometer_mbar = [](const std::string& typed) {
    return read(plain + "\n[check.vacuum]\nbarometer = \"" + typed + "\"\n").vacuum->barometer->value.si() / 100;
  };
  EXPECT_NEAR(barometer_mbar("29.53 inHg"), 1000.0, 0.05);
  EXPECT_NEAR(barometer_mbar("750 mmHg"), 999.9, 0.05);
  EXPECT_NEAR(barometer_mbar("967 mbar"), 967.0, 1e-9);
  EXPECT_THROW(barometer_mbar("2 inHg below ambient"), Mistake);
  EXPECT_THROW(barometer_mbar("35 inHg"), Mistake);
}

}  // namespace
}  // namespace heatwork::trade
