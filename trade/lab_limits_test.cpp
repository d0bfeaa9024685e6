#include "trade/lab_limits.h"

#include <gtest/gtest.h>

#include "trade/mistake.h"
#include "trade/shipped.h"

namespace heatwork::trade {
namespace {

Limits shipped() {
  return read_limits("limits.toml", shipped_text("limits/limits.toml"));
}

std::string refused(const std::string& text) {
  try {
    static_cast<void>(with_lab_limits(shipped(), "lab-limits.toml", text));
  } catch (const Mistake& mistake) {
    const std::string what = mistake.what();
    return what.substr(0, what.find('\n'));
  }
  return "read";
}

TEST(LabLimits, ComeBeforeTheShippedOnes) {
  const Limits limits = with_lab_limits(shipped(), "lab-limits.toml",
                                        "format = 1\n[limits.shift]\nfirst = 7\nsecond = 15\nunit = \"K\"\nsource = \"shade work\"\n"
                                        "[rules.panel_step]\nlevel = \"fault expected\"\nsource = \"this panel rounds\"\n");
  EXPECT_EQ(limits.at("shift").first, 7);
  EXPECT_EQ(limits.at("shift").second, 15);
  EXPECT_EQ(limits.at("shift").source, "shade work");
  EXPECT_TRUE(limits.at("shift").of_lab);
  EXPECT_FALSE(limits.at("sag").of_lab);
  EXPECT_EQ(limits.rule("panel_step").level, RuleLevel::fault_expected);
  EXPECT_TRUE(limits.rule("panel_step").of_lab);
}

TEST(LabLimits, NothingBecomesSoundByLeavingALineOut) {
  const std::string head = "format = 1\n[limits.shift]\nfirst = 7\n", tail = "unit = \"K\"\nsource = \"s\"\n";
  EXPECT_EQ(refused(head + tail), "lab-limits.toml:2:9: the lab's limit shift has no second");
  EXPECT_EQ(refused(head + "second = 5\n" + tail),
            "lab-limits.toml:4:10: second of the lab's limit shift is 5; it is 7 or more, beyond first");
  EXPECT_EQ(refused(head + "second = inf\n" + tail), "lab-limits.toml:4:10: second of the lab's limit shift is inf; it is a number");
  EXPECT_EQ(refused("format = 1\n[limits.crystallised_fraction]\nfirst = 0.9\nsecond = 0.95\nunit = \"\"\nsource = \"s\"\n"),
            "lab-limits.toml:4:10: second of the lab's limit crystallised_fraction is 0.95; it is 0.9 or less, beyond first");
}

TEST(LabLimits, BrokenFilesAreRefusedInOneSentence) {
  EXPECT_EQ(refused("[limits.shift]\n"), "lab-limits.toml:1:1: a file of the lab's limits begins with format = 1");
  EXPECT_EQ(refused("format = 1\n[limits.shirt]\nfirst = 1\n"),
            "lab-limits.toml:2:9: there is no limit named shirt; the shipped limits are in data/limits/limits.toml");
  EXPECT_EQ(refused("format = 1\n[limits.shift]\nfirst = 7\nsecond = 15\nunit = \"°C\"\nsource = \"s\"\n"),
            "lab-limits.toml:5:8: unit of the lab's limit shift is \"°C\"; it is \"K\", as the shipped limit has it");
  EXPECT_EQ(refused("format = 1\n[limits.shift]\nfirst = 7\nsecond = 15\nunit = \"K\"\nsource = \" \"\n"),
            "lab-limits.toml:6:10: source of the lab's limit shift is empty; write who set it and why");
  EXPECT_EQ(refused("format = 1\n[rules.panel_step]\nlevel = \"sound\"\nsource = \"s\"\n"),
            "lab-limits.toml:3:9: \"sound\" is no level of a rule; allowed are fault expected, borderline");
  EXPECT_EQ(
      refused("format = 1\n[inputs.x]\n"),
      "lab-limits.toml:2:2: \"inputs\" has no place in a file of the lab's limits; allowed are format, [limits.NAME] and [rules.NAME]");
}

}  // namespace
}  // namespace heatwork::trade
