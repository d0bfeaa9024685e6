#include "trade/limits.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "trade/mistake.h"

namespace heatwork::trade {
namespace {

std::string refused(std::string_view text) {
  try {
    static_cast<void>(read_limits("limits.toml", text));
  } catch (const Mistake& mistake) {
    const std::string what = mistake.what();
    return what.substr(0, what.find('\n'));
  }
  return "accepted";
}

constexpr std::string_view rest = "unit = \"K\"\nmeaning = \"m\"\nstanding = \"assumed\"\nsource = \"chosen-here\"\n";

TEST(Limits, AreReadWithStandingAndSource) {
  const Limits limits = read_limits("limits.toml", "format = 1\n[limits.shift]\nfirst = 10\nsecond = 20.5\n" + std::string(rest));
  const Limit& shift = limits.at("shift");
  EXPECT_EQ(shift.first, 10);
  EXPECT_EQ(shift.second, 20.5);
  EXPECT_EQ(shift.unit, "K");
  EXPECT_EQ(shift.standing, Standing::assumed);
  EXPECT_FALSE(shift.of_lab);
  EXPECT_THROW(static_cast<void>(limits.at("shfit")), std::out_of_range);
}

TEST(Limits, ASecondMayBeAbsent) {
  EXPECT_FALSE(read_limits("l", "format = 1\n[limits.a]\nfirst = 1\n" + std::string(rest)).at("a").second.has_value());
}

TEST(Limits, MistakesAreLocated) {
  EXPECT_EQ(refused("[limits.a]\nfirst = 1\n"), "limits.toml:1:1: a file of limits begins with format = 1");
  EXPECT_EQ(refused("format = 1\n"), "limits.toml:1:1: a file of limits has tables [limits.NAME]");
  EXPECT_EQ(refused("format = 1\n[other]\n"),
            "limits.toml:2:2: \"other\" has no place in a file of limits; allowed are format, [limits.NAME] and [rules.NAME]");
  EXPECT_EQ(refused("format = 1\n[limits.a]\nfirst = \"10 K\"\n" + std::string(rest)),
            "limits.toml:3:9: first of the limit a is a text in quotes; it is a finite number without quotes, in the limit's unit");
  EXPECT_EQ(refused("format = 1\n[limits.a]\nfirst = 1\nthird = 2\n" + std::string(rest)),
            "limits.toml:4:1: \"third\" is no key of a limit; allowed are first, second, unit, meaning, standing, source");
  EXPECT_EQ(refused("format = 1\n[limits.a]\nfirst = nan\n" + std::string(rest)),
            "limits.toml:3:9: first of the limit a is nan; it is a finite number without quotes, in the limit's unit");
  const std::string no_source =
      refused("format = 1\n[limits.a]\nfirst = 1\nunit = \"K\"\nmeaning = \"m\"\nstanding = \"guess\"\nsource = \"x\"\n");
  EXPECT_EQ(no_source, "limits.toml:6:12: \"guess\" is no standing; allowed are measured, computed, memory, assumed, none found");
  EXPECT_NE(refused("format = 1\n[limits.a]\nfirst = 1\n").find("the limit a has no unit"), std::string::npos);
}

TEST(Rules, AreReadWithTheirLevel) {
  const std::string a_limit = "format = 1\n[limits.a]\nfirst = 1\n" + std::string(rest);
  const std::string known = "meaning = \"m\"\nstanding = \"memory\"\nsource = \"field-memory\"\n";
  const Limits limits = read_limits("l", a_limit + "[rules.cold]\nlevel = \"borderline\"\n" + known);
  EXPECT_EQ(limits.rule("cold").level, RuleLevel::borderline);
  EXPECT_EQ(limits.rule("cold").standing, Standing::memory);
  EXPECT_FALSE(limits.rule("cold").of_lab);
  EXPECT_THROW(static_cast<void>(limits.rule("warm")), std::out_of_range);
  EXPECT_EQ(refused(a_limit + "[rules.cold]\nlevel = \"sound\"\n" + known),
            "limits.toml:9:9: \"sound\" is no level of a rule; allowed are fault expected, borderline");
  EXPECT_EQ(refused(a_limit + "[rules.cold]\nfirst = 3\n" + known),
            "limits.toml:9:1: \"first\" is no key of a rule; allowed are level, meaning, standing, source");
  EXPECT_EQ(refused(a_limit + "[rules.cold]\nlevel = 3\n" + known),
            "limits.toml:9:9: level of the rule cold is a whole number; it is a text in quotes");
  EXPECT_EQ(refused(a_limit + "[rules.cold]\n" + known), "limits.toml:8:8: the rule cold has no level");
}

}  // namespace
}  // namespace heatwork::trade
