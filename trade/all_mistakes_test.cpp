#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

#include "trade/examples_for_tests.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

using Told = std::vector<std::pair<std::string, std::string>>;

Told all(Noun noun, const std::string& text) {
  Told told;
  for (const auto& [key, mistake] : all_mistakes(noun, source_of("x.toml", text))) told.emplace_back(key, mistake.sentence());
  return told;
}

TEST(AllMistakes, OfAGoodTextThereAreNone) {
  for (const Noun noun : {Noun::program, Noun::dental_case, Noun::lab, Noun::tray}) EXPECT_EQ(all(noun, example_of_page(noun)), Told{});
}

TEST(AllMistakes, EachValueIsToldByItsKey) {
  const Told expected{
      {"masss", "\"masss\" is not known in [tray]; did you mean \"mass\"?"},
      {"material", "[tray] lacks material: what it is made of, such as material = \"zirconia-veneer\""},
      {"diameter", "diameter: 69 has no unit; a length is written in quotes such as \"0.7 mm\""},
      {"thickness", "thickness: \"7.8 mn\" ends in \"mn\", which is no unit; a length is written such as \"0.7 mm\""},
  };
  const Told told = all(Noun::tray, "format = 1\n[tray]\nname = \"a\"\nmasss = \"1 g\"\ndiameter = 69\nthickness = \"7.8 mn\"\n");
  ASSERT_EQ(told.size(), expected.size());
  for (std::size_t i = 0; i < told.size(); ++i) EXPECT_EQ(told[i].first, expected[i].first) << told[i].second;
  EXPECT_EQ(told[0], expected[0]);
  EXPECT_EQ(told[2], expected[2]);
}

TEST(AllMistakes, OfAListByPlaceAndOfValuesThatDoNotAgreeByTheLaterOne) {
  const std::string text =
      "format = 1\n[program]\nname = \"p\"\nstandby = \"400 °C\"\nentry = \"400 °C\"\ndrying_time = \"2 min\"\nclosing_time = \"1 min\"\n"
      "[[program.heating]]\nto = \"800 °C\"\nrate = \"50 K/min\"\n[[program.heating]]\nto = \"SECOND\"\nrate = \"RATE\"\n";
  const auto with = [&](const std::string& second, const std::string& rate) {
    std::string out = text;
    out.replace(out.find("SECOND"), 6, second);
    out.replace(out.find("RATE"), 4, rate);
    return all(Noun::program, out);
  };
  const Told both = with("warm", "fast");
  ASSERT_EQ(both.size(), 2U);
  EXPECT_EQ(both[0].first, "heating[2].to");
  EXPECT_EQ(both[1].first, "heating[2].rate");
  const Told falls = with("700 °C", "50 K/min");
  ASSERT_EQ(falls.size(), 1U);
  EXPECT_EQ(falls[0].first, "heating[2].to");
  EXPECT_NE(falls[0].second.find("heating stages rise"), std::string::npos);
}

/// The first of all is the one that reading alone tells, whatever is wrong.
TEST(AllMistakes, OfATextAsAWholeHaveNoKey) {
  EXPECT_EQ(all(Noun::tray, "format = 1\n[tray\n").front().first, "");
  EXPECT_EQ(all(Noun::tray, example_of_page(Noun::program)), (Told{{"", "the file holds a program; a tray is wanted here"}}));
  EXPECT_EQ(all(Noun::tray, "").size(), 1U);
}

}  // namespace
}  // namespace heatwork::trade
