#include "trade/deciding_inputs.h"

#include <gtest/gtest.h>

#include "trade/mistake.h"
#include "trade/shipped.h"

namespace heatwork::trade {
namespace {

std::string refused(const std::string& text) {
  try {
    static_cast<void>(read_deciding_inputs("inputs.toml", text));
  } catch (const Mistake& mistake) {
    const std::string what = mistake.what();
    return what.substr(0, what.find('\n'));
  }
  return "read";
}

const std::string start = "format = 1\n[inputs.tray_mass]\nof = \"load\"\naspects = [\"heat\"]\nmeaning = \"m\"\nunit = \"%\"\n";
const std::string rest = "standing = \"assumed\"\nsource = \"s\"\n";

TEST(DecidingInputs, ShippedOnesAreRead) {
  const DecidingInputs inputs = read_deciding_inputs("inputs.toml", shipped_text("limits/inputs.toml"));
  ASSERT_GT(inputs.size(), 20U);
  EXPECT_EQ(inputs.front().name, "display_error");
  EXPECT_TRUE(inputs.front().decides("degree of firing"));
  EXPECT_FALSE(inputs.front().decides("chamber"));
  for (const DecidingInput& input : inputs) {
    EXPECT_FALSE(input.aspects.empty()) << input.name;
    EXPECT_EQ(input.source.empty(), input.of == InputOf::material) << input.name;
  }
}

TEST(DecidingInputs, ARangeGoesBothWays) {
  const DecidingInputs inputs = read_deciding_inputs("inputs.toml", start + "low = -3\nhigh = 4.5\n" + rest);
  ASSERT_EQ(inputs.size(), 1U);
  EXPECT_EQ(inputs[0].of, InputOf::load);
  EXPECT_EQ(inputs[0].low, -3);
  EXPECT_EQ(inputs[0].high, 4.5);
  EXPECT_EQ(refused(start + "low = 3\nhigh = 4\n" + rest), "inputs.toml:7:7: low of the input tray_mass is 3; it is a number below 0");
  EXPECT_EQ(refused(start + "low = -3\nhigh = inf\n" + rest),
            "inputs.toml:8:8: high of the input tray_mass is inf; it is a number above 0");
}

TEST(DecidingInputs, BrokenFilesAreRefusedInOneSentence) {
  EXPECT_EQ(refused("[inputs.a]\n"), "inputs.toml:1:1: a file of inputs begins with format = 1");
  EXPECT_EQ(refused("format = 1\n"), "inputs.toml:1:1: a file of inputs has tables [inputs.NAME]");
  EXPECT_EQ(refused("format = 1\n[inputs]\na = 1\n"), "inputs.toml:3:1: a is no table; an input is [inputs.a]");
  EXPECT_EQ(refused("format = 1\n[inputs.a]\nof = \"moon\"\n"),
            "inputs.toml:3:6: of: \"moon\" is not known; allowed are furnace, load, piece, material, model");
  EXPECT_EQ(refused("format = 1\n[inputs.a]\nof = \"material\"\naspects = [\"heat\"]\nmeaning = \"m\"\nlow = -1\n"),
            "inputs.toml:6:1: \"low\" is no key of an input of the material; allowed are of, aspects, meaning");
  EXPECT_EQ(refused(start + "low = -3\nhigh = 3\nstanding = \"guess\"\nsource = \"s\"\n"),
            "inputs.toml:9:12: standing: \"guess\" is not known; allowed are measured, computed, memory, assumed, none found");
  EXPECT_EQ(refused(start + "low = -3\nhigh = 3\nstanding = \"assumed\"\nsource = \"\"\n"),
            "inputs.toml:10:10: the input tray_mass names no source");
}

}  // namespace
}  // namespace heatwork::trade
